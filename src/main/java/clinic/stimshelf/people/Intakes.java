package clinic.stimshelf.people;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** What patients answer before they see a therapist. */
@ApplicationScoped
public class Intakes {
  @Inject IntakeRows rows;
  @Inject IntakeAnswerRows answerRows;
  @Inject ScreeningRows screeningRows;
  @Inject ScreeningAnswerRows screeningAnswerRows;
  @Inject Patients patients;
  @Inject Questions questions;
  @Inject Muscles muscles;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;

  /** What a patient is asked; all of it where the muscle is not known yet. */
  public List<Question> questionsFor(String muscle) {
    return questions.askedOfPatient(muscle == null ? null : regionOf(muscle));
  }

  /**
   * Keeps a patient's answers. Where one of them contradicts a screening, that screening no longer
   * holds.
   *
   * @return the number of the form
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public Long answer(NewIntake entry) {
    PatientView patient = patients.byId(entry.patientId());
    Refusals refusals = new Refusals();
    ZoneId zone = locations.zone(patient.locationId());
    Happened happened = times.of(entry.happenedAt(), entry.lateReason(), zone, refusals);
    BodyRegion region = checkRegion(entry, refusals);
    PatientChecks.length(
        entry.answeredBy(), "answeredBy", "Who answered the form", 120, true, refusals);
    if (entry.means() == null) {
      refusals.add("means", "Say whether it was answered on paper or on the screen.");
    }
    checkAnswers(entry.answers(), questions.askedOfPatient(region), refusals);
    refusals.throwIfAny();
    Intake row = new Intake();
    row.patientId = patient.id();
    row.region = region == null ? null : region.key();
    row.side = entry.side();
    row.language = entry.language() == null ? "en" : entry.language();
    row.answeredBy = entry.answeredBy().strip();
    row.means = entry.means();
    row.answeredAt = happened.at();
    row.recordedAt = clock.instant();
    row.enteredBy = signedIn.staffId();
    rows.persist(row);
    entry.answers().forEach((key, answer) -> keep(row, key, answer));
    trail.record(
        Patients.subject(patient.id()),
        patient.locationId(),
        "intake form",
        happened,
        null,
        Map.of("answers", entry.answers().size(), "means", entry.means()));
    outdateContradicted(entry, row, LocalDate.ofInstant(happened.at(), zone));
    return row.id;
  }

  /** The latest form that says something about the region; {@code null} for any form. */
  @Transactional
  public Optional<IntakeView> latest(Long patientId, String region) {
    patients.byId(patientId);
    return rows.find(
            "patientId = ?1 and (region is null or region = ?2) order by answeredAt desc, id desc",
            patientId,
            region == null ? "" : region)
        .firstResultOptional()
        .or(
            () ->
                region != null
                    ? Optional.empty()
                    : rows.find("patientId = ?1 order by answeredAt desc, id desc", patientId)
                        .firstResultOptional())
        .map(this::view);
  }

  private BodyRegion checkRegion(NewIntake entry, Refusals refusals) {
    if (entry.muscle() == null || entry.muscle().isBlank()) {
      return null;
    }
    if (muscles.find(entry.muscle()).isEmpty()) {
      refusals.add(
          "muscle", "No muscle is called “" + entry.muscle() + "” in config/muscles.yaml.");
      return null;
    }
    return regionOf(entry.muscle());
  }

  private BodyRegion regionOf(String muscle) {
    return muscles.region(muscles.muscle(muscle).region());
  }

  private static void checkAnswers(
      Map<String, Answer> answers, List<Question> asked, Refusals refusals) {
    Map<String, Question> byKey =
        asked.stream().collect(Collectors.toMap(Question::key, question -> question));
    Map<String, Answer> given = answers == null ? Map.of() : answers;
    given.keySet().stream()
        .filter(key -> !byKey.containsKey(key))
        .forEach(key -> refusals.add("answers", "Nothing is asked here under “" + key + "”."));
    for (Question question : asked) {
      Answer answer = given.get(question.key());
      if (answer == null) {
        refusals.add(question.key(), "Not answered: " + question.patient());
      } else if (answer == Answer.YES_BUT) {
        refusals.add(question.key(), "A patient answers with yes, no or not sure.");
      }
    }
  }

  private void keep(Intake row, String key, Answer answer) {
    IntakeAnswer kept = new IntakeAnswer();
    kept.intakeId = row.id;
    kept.question = key;
    kept.answer = answer;
    answerRows.persist(kept);
  }

  private void outdateContradicted(NewIntake entry, Intake intake, LocalDate day) {
    List<Screening> current =
        screeningRows.list(
            "patientId = ?1 and supersededAt is null and outdatedAt is null and screenedAt <= ?2",
            entry.patientId(),
            intake.answeredAt);
    if (current.isEmpty()) {
      return;
    }
    Map<Long, Map<String, Answer>> confirmed = new HashMap<>();
    screeningAnswerRows
        .list("screeningId in ?1", current.stream().map(row -> row.id).toList())
        .forEach(
            answer ->
                confirmed
                    .computeIfAbsent(answer.screeningId, id -> new HashMap<>())
                    .put(answer.question, answer.answer));
    for (Screening row : current) {
      Map<String, Answer> said = confirmed.getOrDefault(row.id, Map.of());
      boolean contradicted =
          entry.answers().entrySet().stream()
              .anyMatch(
                  answer ->
                      answer.getValue() != Answer.NO
                          && said.get(answer.getKey()) == Answer.NO
                          && concerns(answer.getKey(), intake, row));
      if (contradicted) {
        row.outdatedAt = clock.instant();
        row.outdatedReason =
            "on the form of " + Days.full(day) + " the patient answered differently.";
      }
    }
  }

  /** An answer about a place concerns the screenings of that place only. */
  private boolean concerns(String key, Intake intake, Screening screening) {
    boolean everywhere = questions.find(key).map(q -> !q.aboutTheRegion()).orElse(true);
    return everywhere || intake.region == null || intake.region.equals(screening.region);
  }

  private IntakeView view(Intake row) {
    Map<String, Answer> answers =
        answerRows.list("intakeId", row.id).stream()
            .collect(Collectors.toMap(answer -> answer.question, answer -> answer.answer));
    return new IntakeView(
        row.id,
        row.patientId,
        row.region,
        row.side,
        row.language,
        row.answeredBy,
        row.means,
        row.answeredAt,
        answers);
  }
}
