package clinic.stimshelf.people;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.people.NewScreening.Confirmed;
import clinic.stimshelf.web.JustEntered;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** What therapists confirmed about a patient's region and side, and what of it stands open. */
@ApplicationScoped
public class Screenings {
  @Inject ScreeningRows rows;
  @Inject ScreeningAnswerRows answerRows;
  @Inject ClearanceRows clearanceRows;
  @Inject Patients patients;
  @Inject Questions questions;
  @Inject Muscles muscles;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Staff staff;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;
  @Inject JustEntered justEntered;

  /**
   * What stands against a home program on a muscle, for signing it and for handing out its unit.
   *
   * @param muscle by its key
   * @param side left, right or both, as {@link Side#of} reads it
   */
  @Transactional
  public ScreeningStatus status(Long patientId, String muscle, String side, LocalDate on) {
    return status(patientId, muscle, Side.of(side), on, true);
  }

  /** The same for the clinic, where the rules about the home don't count. */
  @Transactional
  public ScreeningStatus statusInClinic(Long patientId, String muscle, String side, LocalDate on) {
    return status(patientId, muscle, Side.of(side), on, false);
  }

  ScreeningStatus status(Long patientId, String muscle, Side side, LocalDate on, boolean home) {
    return statusOf(patientId, muscles.region(muscles.muscle(muscle).region()), side, on, home);
  }

  private ScreeningStatus statusOf(
      Long patientId, BodyRegion region, Side side, LocalDate on, boolean home) {
    PatientView patient = patients.byId(patientId);
    ZoneId zone = locations.zone(patient.locationId());
    List<Screening> found =
        rows.list(
            "patientId = ?1 and region = ?2 and supersededAt is null"
                + " order by screenedAt desc, id desc",
            patientId,
            region.key());
    Map<Long, Map<String, Judgement.Given>> answers = given(found);
    List<Judgement.Screened> screened =
        found.stream()
            .map(
                row ->
                    new Judgement.Screened(
                        row.id,
                        LocalDate.ofInstant(row.screenedAt, zone),
                        row.side,
                        row.outdatedReason,
                        answers.getOrDefault(row.id, Map.of())))
            .toList();
    List<Judgement.Cleared> clearances =
        clearanceRows.list("patientId = ?1 and withdrawnAt is null", patientId).stream()
            .map(
                row ->
                    new Judgement.Cleared(
                        row.question, row.region, row.side, row.clearedOn, row.validUntil))
            .toList();
    int staleDays = locations.settings(patient.locationId()).whole(Setting.SCREENING_STALE_DAYS);
    return new Judgement(questions.askedFor(region), region, home, on, staleDays)
        .of(side, screened, clearances);
  }

  /**
   * Records what a therapist confirmed. It supersedes what was confirmed for the same region and
   * side before; every acceptance is given anew.
   *
   * @return the number of the screening
   * @throws Refusal with everything that stands against it
   */
  @Transactional
  public Long screen(NewScreening entry) {
    PatientView patient = patients.byId(entry.patientId());
    Refusals refusals = new Refusals();
    BodyRegion region = region(entry.muscle(), entry.side(), refusals);
    Happened happened =
        times.of(
            entry.happenedAt(), entry.lateReason(), locations.zone(patient.locationId()), refusals);
    refusals.throwIfAny();
    boolean pt = signedIn.mayLicensedPt(locations.today(patient.locationId()));
    Map<String, Confirmed> given = checkAnswers(entry.answers(), region, pt, refusals);
    refusals.throwIfAny();
    supersede(patient.id(), region, entry.side(), happened);
    Screening row = begin(null, patient.id(), region, entry.side(), signedIn.staffId(), happened);
    for (Confirmed confirmed : given.values()) {
      ScreeningAnswer answer = answer(row, confirmed.key(), confirmed.answer(), confirmed.note());
      if (!PatientChecks.blank(confirmed.acceptance())) {
        accept(answer, confirmed.acceptance(), signedIn.staffId(), happened);
      }
      answerRows.persist(answer);
    }
    trail.record(
        Patients.subject(patient.id()),
        patient.locationId(),
        "screened",
        happened,
        null,
        summary(region, entry.side(), given));
    return row.id;
  }

  /**
   * A licensed PT accepts a precaution of a screening.
   *
   * @throws Refusal if it is none, if there is no reason, or if the person is no licensed PT
   */
  @Transactional
  public void accept(Long patientId, Long screeningId, String key, String reason) {
    PatientView patient = patients.byId(patientId);
    Screening row = rows.findById(screeningId);
    if (row == null || !row.patientId.equals(patientId)) {
      throw new NotFound("There is no such screening of this patient.");
    }
    ScreeningAnswer answer =
        answerRows.find("screeningId = ?1 and question = ?2", screeningId, key).firstResult();
    Question question = questions.find(key).orElse(null);
    if (answer == null || question == null) {
      throw new NotFound("The screening has no question “" + key + "”.");
    }
    Refusals refusals = new Refusals();
    checkAcceptance(
        question,
        answer.answer,
        reason,
        muscles.region(row.region),
        signedIn.mayLicensedPt(locations.today(patient.locationId())),
        refusals);
    if (PatientChecks.blank(reason)) {
      refusals.add("reason", "Say why the precaution is acceptable.");
    }
    if (row.supersededAt != null) {
      refusals.add("screening", "A newer screening has taken its place.", "Accept it there.");
    }
    refusals.throwIfAny();
    Happened now = times.now();
    accept(answer, reason, signedIn.staffId(), now);
    trail.record(
        Patients.subject(patientId),
        patient.locationId(),
        "precaution accepted",
        now,
        null,
        Map.of("question", key, "reason", reason.strip()));
  }

  /**
   * Something about the patient changed, so that what was confirmed no longer holds.
   *
   * @param region by its key; {@code null} for the whole person
   * @param reason as a sentence
   */
  @Transactional
  public void outdate(Long patientId, String region, String reason) {
    PatientView patient = patients.byId(patientId);
    Refusals refusals = new Refusals();
    PatientChecks.length(reason, "reason", "What changed", 500, true, refusals);
    refusals.throwIfAny();
    List<Screening> current =
        rows
            .list("patientId = ?1 and supersededAt is null and outdatedAt is null", patientId)
            .stream()
            .filter(row -> region == null || row.region.equals(region))
            .toList();
    for (Screening row : current) {
      row.outdatedAt = clock.instant();
      row.outdatedReason = reason.strip();
    }
    if (!current.isEmpty()) {
      trail.record(
          Patients.subject(patientId),
          patient.locationId(),
          "screening outdated",
          times.now(),
          null,
          Map.of("reason", reason.strip()));
    }
  }

  /** How each region and side stands that was screened and not superseded, newest first. */
  @Transactional
  public List<Area> areas(Long patientId, LocalDate on) {
    return of(patientId).stream()
        .filter(screening -> !screening.superseded())
        .map(
            screening ->
                new Area(
                    screening,
                    statusOf(
                        patientId, muscles.region(screening.region()), screening.side(), on, true)))
        .toList();
  }

  /** A region and side that was screened, and what stands open there. */
  public record Area(ScreeningView screening, ScreeningStatus status) {}

  /** The patient's screenings, newest first; superseded ones too. */
  @Transactional
  public List<ScreeningView> of(Long patientId) {
    patients.byId(patientId);
    List<Screening> found =
        rows.list("patientId = ?1 order by screenedAt desc, id desc", patientId);
    if (found.isEmpty()) {
      return List.of();
    }
    Map<Long, List<ScreeningAnswer>> answers =
        answersOf(found).stream().collect(Collectors.groupingBy(answer -> answer.screeningId));
    Set<Long> people = new HashSet<>();
    found.forEach(row -> people.add(row.screenedBy));
    answers.values().forEach(list -> list.forEach(answer -> people.add(answer.acceptedBy)));
    Map<Long, String> names = staff.names(people);
    return found.stream()
        .map(row -> view(row, answers.getOrDefault(row.id, List.of()), names))
        .toList();
  }

  /**
   * Takes over a screening of a file. A known {@code ref} changes nothing.
   *
   * @return the number of the new or the known screening
   */
  @Transactional
  public Long enter(PastScreening entry) {
    Long known = justEntered.find("screening", entry.ref());
    if (known == null && entry.ref() != null) {
      known = rows.find("ref", entry.ref()).firstResultOptional().map(row -> row.id).orElse(null);
    }
    if (known != null) {
      return known;
    }
    PatientView patient = patients.byId(entry.patientId());
    Refusals refusals = new Refusals();
    BodyRegion region = region(entry.muscle(), entry.side(), refusals);
    if (entry.screenedAt() == null || entry.screenedAt().isAfter(clock.instant())) {
      refusals.add("screenedAt", "A past screening needs the time at which it took place.");
    }
    refusals.throwIfAny();
    List<Question> asked = questions.askedFor(region);
    Set<String> keys = asked.stream().map(Question::key).collect(Collectors.toSet());
    entry.yes().keySet().stream()
        .filter(key -> !keys.contains(key))
        .forEach(key -> refusals.add("yes", "Nothing is asked here under “" + key + "”."));
    refusals.throwIfAny();
    Happened then = Happened.at(entry.screenedAt());
    Screening row =
        begin(entry.ref(), patient.id(), region, entry.side(), entry.screenedBy(), then);
    justEntered.add("screening", entry.ref(), row.id);
    for (Question question : asked) {
      boolean yes = entry.yes().containsKey(question.key());
      ScreeningAnswer answer = answer(row, question.key(), yes ? Answer.YES : Answer.NO, null);
      if (yes && !PatientChecks.blank(entry.yes().get(question.key()))) {
        accept(answer, entry.yes().get(question.key()), entry.screenedBy(), then);
      }
      answerRows.persist(answer);
    }
    trail.record(
        Patients.subject(patient.id()),
        patient.locationId(),
        "imported",
        then,
        null,
        Map.of("screening", region.words(entry.side()), "yes", new TreeMap<>(entry.yes())));
    return row.id;
  }

  /** The questions for a muscle, those about its region first. */
  @Transactional
  public List<Question> questionsFor(String muscle) {
    BodyRegion region = muscles.region(muscles.muscle(muscle).region());
    List<Question> sorted = new ArrayList<>(questions.askedFor(region));
    sorted.sort((one, other) -> Boolean.compare(other.aboutTheRegion(), one.aboutTheRegion()));
    return sorted;
  }

  private BodyRegion region(String muscle, Side side, Refusals refusals) {
    if (side == null) {
      refusals.add("side", "Say the side: left, right or both.");
    }
    Muscle found = muscle == null ? null : muscles.find(muscle).orElse(null);
    if (found == null) {
      refusals.add(
          "muscle",
          muscle == null || muscle.isBlank()
              ? "Say which muscle is to be treated."
              : "No muscle is called “" + muscle + "” in config/muscles.yaml.");
      return null;
    }
    return muscles.region(found.region());
  }

  private Map<String, Confirmed> checkAnswers(
      List<Confirmed> answers, BodyRegion region, boolean pt, Refusals refusals) {
    Map<String, Question> asked = new LinkedHashMap<>();
    questions.askedFor(region).forEach(question -> asked.put(question.key(), question));
    Map<String, Confirmed> given = new LinkedHashMap<>();
    for (Confirmed confirmed : answers == null ? List.<Confirmed>of() : answers) {
      String key = confirmed.key();
      Question question = asked.get(key);
      if (question == null) {
        refusals.add("answers", "Nothing is asked here under “" + key + "”.");
      } else if (given.put(key, confirmed) != null) {
        refusals.add(key, "“" + question.ask() + "” is answered twice.");
      } else if (confirmed.answer() != null) {
        checkAnswer(question, confirmed, region, pt, refusals);
      }
    }
    for (Question question : asked.values()) {
      Confirmed confirmed = given.get(question.key());
      if (confirmed == null || confirmed.answer() == null) {
        refusals.add(question.key(), "Not answered: " + question.ask());
      }
    }
    return given;
  }

  private static void checkAnswer(
      Question question, Confirmed confirmed, BodyRegion region, boolean pt, Refusals refusals) {
    if (confirmed.answer() == Answer.YES_BUT && question.alternative() == null) {
      refusals.add(
          question.key(), "“" + question.ask() + "” is answered with no, yes or not-sure.");
    }
    PatientChecks.length(confirmed.note(), question.key(), "A note", 500, false, refusals);
    if (!PatientChecks.blank(confirmed.acceptance())) {
      checkAcceptance(question, confirmed.answer(), confirmed.acceptance(), region, pt, refusals);
    }
  }

  private static void checkAcceptance(
      Question question,
      Answer answer,
      String reason,
      BodyRegion region,
      boolean pt,
      Refusals refusals) {
    if (question.effectOf(answer, region, true) != Effect.PRECAUTION) {
      refusals.add(
          question.key(),
          "Only a precaution can be accepted, and this is none: "
              + question.ask()
              + " — "
              + answer.words()
              + ".");
    } else if (!pt) {
      refusals.add(
          question.key(),
          "A precaution is accepted by a licensed PT only.",
          "Leave the reason out and ask a licensed PT to accept it.");
    }
    PatientChecks.length(reason, question.key(), "A reason", 500, false, refusals);
  }

  private void supersede(Long patientId, BodyRegion region, Side side, Happened happened) {
    for (Screening row :
        rows.list(
            "patientId = ?1 and region = ?2 and supersededAt is null and screenedAt <= ?3",
            patientId,
            region.key(),
            happened.at())) {
      if (row.side.single().stream().allMatch(side::covers)) {
        row.supersededAt = clock.instant();
      }
    }
  }

  private Screening begin(
      String ref, Long patientId, BodyRegion region, Side side, Long by, Happened happened) {
    Screening row = new Screening();
    row.ref = ref;
    row.patientId = patientId;
    row.region = region.key();
    row.side = side;
    row.screenedBy = by;
    row.screenedAt = happened.at();
    row.recordedAt = clock.instant();
    rows.persist(row);
    return row;
  }

  private static ScreeningAnswer answer(Screening row, String key, Answer answer, String note) {
    ScreeningAnswer written = new ScreeningAnswer();
    written.screeningId = row.id;
    written.question = key;
    written.answer = answer;
    written.note = PatientChecks.orNull(note);
    return written;
  }

  private static void accept(ScreeningAnswer answer, String reason, Long by, Happened happened) {
    answer.acceptedBy = by;
    answer.acceptedAt = happened.at();
    answer.acceptedReason = reason.strip();
  }

  private Map<String, Object> summary(BodyRegion region, Side side, Map<String, Confirmed> given) {
    Map<String, String> notNo = new TreeMap<>();
    given.forEach(
        (key, confirmed) -> {
          if (confirmed.answer() != Answer.NO) {
            notNo.put(key, confirmed.answer().word());
          }
        });
    return Map.of("region", region.key(), "side", side, "questions", given.size(), "not-no", notNo);
  }

  private List<ScreeningAnswer> answersOf(List<Screening> found) {
    return found.isEmpty()
        ? List.of()
        : answerRows.list("screeningId in ?1", found.stream().map(row -> row.id).toList());
  }

  private Map<Long, Map<String, Judgement.Given>> given(List<Screening> found) {
    return answersOf(found).stream()
        .collect(
            Collectors.groupingBy(
                answer -> answer.screeningId,
                Collectors.toMap(
                    answer -> answer.question,
                    answer ->
                        new Judgement.Given(
                            answer.answer, answer.note, answer.acceptedReason != null))));
  }

  private ScreeningView view(
      Screening row, List<ScreeningAnswer> answers, Map<Long, String> names) {
    BodyRegion region = muscles.region(row.region);
    Map<String, ScreeningAnswer> byKey =
        answers.stream().collect(Collectors.toMap(answer -> answer.question, answer -> answer));
    List<ScreeningView.Line> lines = new ArrayList<>();
    for (Question question : questions.all()) {
      ScreeningAnswer answer = byKey.get(question.key());
      if (answer != null) {
        lines.add(
            new ScreeningView.Line(
                question.key(),
                question.ask(),
                answer.answer,
                answer.note,
                question.effectOf(answer.answer, region, true),
                names.get(answer.acceptedBy),
                answer.acceptedAt,
                answer.acceptedReason));
      }
    }
    return new ScreeningView(
        row.id,
        row.patientId,
        row.region,
        region.words(row.side),
        row.side,
        row.screenedBy,
        row.screenedBy == null ? null : names.get(row.screenedBy),
        row.screenedAt,
        row.supersededAt != null,
        row.outdatedReason,
        lines);
  }
}
