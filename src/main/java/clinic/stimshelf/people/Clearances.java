package clinic.stimshelf.people;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;

/** Who cleared what for a patient: named and dated. */
@ApplicationScoped
public class Clearances {
  @Inject ClearanceRows rows;
  @Inject Patients patients;
  @Inject Questions questions;
  @Inject Muscles muscles;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;

  /**
   * Records a clearance.
   *
   * @return its number; that of the known one where {@code ref} is known
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public Long record(NewClearance entry) {
    PatientView patient = patients.byId(entry.patientId());
    if (entry.ref() != null) {
      Clearance known = rows.find("ref", entry.ref()).firstResult();
      if (known != null) {
        return known.id;
      }
    }
    Refusals refusals = new Refusals();
    check(entry, locations.today(patient.locationId()), refusals);
    refusals.throwIfAny();
    Clearance row = new Clearance();
    row.ref = entry.ref();
    row.patientId = patient.id();
    row.question = entry.question();
    row.region = PatientChecks.blank(entry.muscle()) ? null : region(entry.muscle());
    row.side = entry.side() == Side.BOTH ? null : entry.side();
    row.clearedBy = entry.clearedBy().strip();
    row.clearedOn = entry.clearedOn();
    row.validUntil = entry.validUntil();
    row.scope = entry.scope().strip();
    row.recordedBy = signedIn.staffId();
    row.recordedAt = clock.instant();
    rows.persist(row);
    trail.record(
        Patients.subject(patient.id()),
        patient.locationId(),
        "clearance recorded",
        times.now(),
        null,
        view(row));
    return row.id;
  }

  /** Takes a clearance back, with a reason; it stays on record as withdrawn. */
  @Transactional
  public void withdraw(Long patientId, Long clearanceId, String reason) {
    PatientView patient = patients.byId(patientId);
    Clearance row = rows.findById(clearanceId);
    if (row == null || !row.patientId.equals(patientId)) {
      throw new NotFound("There is no such clearance of this patient.");
    }
    Refusals refusals = new Refusals();
    PatientChecks.length(reason, "reason", "The reason", 500, true, refusals);
    refusals.throwIfAny();
    if (row.withdrawnAt == null) {
      row.withdrawnAt = clock.instant();
      row.withdrawnReason = reason.strip();
      trail.record(
          Patients.subject(patientId),
          patient.locationId(),
          "clearance withdrawn",
          times.now(),
          null,
          view(row));
    }
  }

  /** The patient's clearances, newest first. */
  @Transactional
  public List<ClearanceView> of(Long patientId) {
    patients.byId(patientId);
    return rows.list("patientId = ?1 order by clearedOn desc, id desc", patientId).stream()
        .map(this::view)
        .toList();
  }

  /** The questions that somebody can clear, by key. */
  public Map<String, Question> clearable() {
    return questions.all().stream()
        .filter(question -> question.clearedBy() != null)
        .collect(
            java.util.stream.Collectors.toMap(
                Question::key,
                question -> question,
                (one, other) -> one,
                java.util.LinkedHashMap::new));
  }

  private void check(NewClearance entry, LocalDate today, Refusals refusals) {
    Question question =
        entry.question() == null ? null : questions.find(entry.question()).orElse(null);
    if (question == null) {
      refusals.add("question", "Say which question it clears, by its key.");
    } else if (question.clearedBy() == null) {
      refusals.add("question", "Nobody can clear this: " + question.ask());
    }
    if (!PatientChecks.blank(entry.muscle()) && muscles.find(entry.muscle()).isEmpty()) {
      refusals.add("muscle", "No muscle is called “" + entry.muscle() + "”.");
    }
    PatientChecks.length(entry.clearedBy(), "clearedBy", "Who cleared it", 120, true, refusals);
    PatientChecks.length(entry.scope(), "scope", "What is cleared", 500, true, refusals);
    if (entry.clearedOn() == null) {
      refusals.add("clearedOn", "The day of the clearance is missing.");
    } else if (entry.clearedOn().isAfter(today)) {
      refusals.add("clearedOn", "A clearance is not given in the future.");
    } else if (entry.validUntil() != null && entry.validUntil().isBefore(entry.clearedOn())) {
      refusals.add("validUntil", "A clearance ends on or after the day it was given.");
    }
  }

  private String region(String muscle) {
    return muscles.muscle(muscle).region();
  }

  private ClearanceView view(Clearance row) {
    return new ClearanceView(
        row.id,
        row.question,
        questions.find(row.question).map(Question::ask).orElse(row.question),
        row.region,
        row.side,
        row.clearedBy,
        row.clearedOn,
        row.validUntil,
        row.scope,
        row.recordedAt,
        row.withdrawnReason);
  }
}
