package clinic.stimshelf.recall;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.util.Map;

/** Reaching the people whom a recall touched: each attempt is kept, none is taken back. */
@Retried
@ApplicationScoped
class Reaching {
  @Inject Recalls recalls;
  @Inject RecallReading reading;
  @Inject RecallContactRows contacts;
  @Inject RecallExcuseRows excuses;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;

  /**
   * Logs an attempt to reach somebody.
   *
   * @throws Refusal with everything that stands against it
   */
  @Transactional
  public void reach(Long id, NewReach entry) {
    Recall row = recalls.row(id);
    Refusals refusals = new Refusals();
    PatientView patient = touched(row, entry.patientId(), refusals);
    Happened happened =
        times.of(
            entry.happenedAt(),
            entry.lateReason(),
            patient == null ? recalls.zone() : locations.zone(patient.locationId()),
            refusals);
    if (entry.outcome() == null) {
      refusals.add("outcome", "What came of it?", "Choose one of the answers.");
    }
    RecallContact contact = new RecallContact();
    contact.spokeWith =
        Said.text("spokeWith", "Whom you spoke with", entry.spokeWith(), 120, false, refusals);
    contact.proof = Said.text("proof", "The proof", entry.proof(), 120, false, refusals);
    contact.note = Said.text("note", "The note", entry.note(), 500, false, refusals);
    if (entry.outcome() == ReachOutcome.FAMILY && contact.spokeWith == null) {
      refusals.add(
          "spokeWith", "With whom did you speak?", "Name them and what they are to the patient.");
    }
    if (happened.at().plusSeconds(60).isBefore(row.begunAt)) {
      refusals.add("happenedAt", "The recall began only later.", "Enter a time after that.");
    }
    refusals.throwIfAny();
    contact.recallId = row.id;
    contact.patientId = patient.id();
    contact.outcome = entry.outcome();
    contact.happenedAt = happened.at();
    contact.recordedAt = clock.instant();
    contact.lateReason = happened.lateReason();
    contact.byName = signedIn.name();
    contacts.persist(contact);
    trail.record(
        Recalls.subject(row),
        patient.locationId(),
        "contact logged",
        happened,
        null,
        contact.view());
  }

  /** Leaves somebody unreached, with the reason; a later contact stands beside it. */
  @Transactional
  public void excuse(Long id, Long patientId, String reason) {
    Recall row = recalls.row(id);
    Refusals refusals = new Refusals();
    PatientView patient = touched(row, patientId, refusals);
    String why = Said.text("reason", "The reason", reason, 500, true, refusals);
    if (patient != null
        && contacts.count("recallId = ?1 and patientId = ?2", row.id, patient.id()) == 0
        && patient.diedOn() == null) {
      refusals.add(
          "reason",
          "Nobody has tried to reach this person.",
          "Log at least one attempt first: a call, or a letter.");
    }
    refusals.throwIfAny();
    RecallExcuse left =
        excuses
            .find("recallId = ?1 and patientId = ?2", row.id, patient.id())
            .firstResultOptional()
            .orElseGet(RecallExcuse::new);
    String before = left.reason;
    left.recallId = row.id;
    left.patientId = patient.id();
    left.reason = why;
    left.recordedAt = clock.instant();
    left.byName = signedIn.name();
    excuses.persist(left);
    trail.record(
        Recalls.subject(row),
        patient.locationId(),
        "left unreached",
        times.now(),
        before == null ? null : Map.of("reason", before),
        Map.of("patient", String.valueOf(patient.id()), "reason", why));
  }

  private PatientView touched(Recall row, Long patientId, Refusals refusals) {
    if (patientId == null) {
      refusals.add("patientId", "Who was it about?", "Name the patient.");
      return null;
    }
    PatientView patient = patients.byId(patientId);
    signedIn.requireLocation(patient.locationId());
    if (reading.people(row, recalls.zone()).stream()
        .noneMatch(one -> one.patientId().equals(String.valueOf(patientId)))) {
      refusals.add(
          "patientId",
          "Chart " + patient.chartNumber() + " never had what is recalled.",
          "If they had, enter the loan or the packs first.");
    }
    return patient;
  }
}
