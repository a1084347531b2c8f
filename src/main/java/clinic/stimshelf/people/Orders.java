package clinic.stimshelf.people;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** Prescribers' orders for patients. */
@ApplicationScoped
public class Orders {
  @Inject PrescriberOrderRows rows;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;

  /**
   * Records an order.
   *
   * @return its number; that of the known one where {@code ref} is known
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public Long record(NewOrder entry) {
    PatientView patient = patients.byId(entry.patientId());
    if (entry.ref() != null) {
      PrescriberOrder known = rows.find("ref", entry.ref()).firstResult();
      if (known != null) {
        return known.id;
      }
    }
    Refusals refusals = new Refusals();
    PatientChecks.length(
        entry.prescriber(), "prescriber", "The prescriber's name", 120, true, refusals);
    PatientChecks.length(entry.ordered(), "ordered", "What is ordered", 500, true, refusals);
    PatientChecks.length(
        entry.restrictions(), "restrictions", "The restrictions", 1000, false, refusals);
    if (entry.orderedOn() == null) {
      refusals.add("orderedOn", "The day of the order is missing.");
    } else if (entry.orderedOn().isAfter(locations.today(patient.locationId()))) {
      refusals.add("orderedOn", "An order is not given in the future.");
    } else if (entry.endsOn() != null && entry.endsOn().isBefore(entry.orderedOn())) {
      refusals.add("endsOn", "An order ends on or after its day.");
    }
    refusals.throwIfAny();
    PrescriberOrder row = new PrescriberOrder();
    row.ref = entry.ref();
    row.patientId = patient.id();
    row.prescriber = entry.prescriber().strip();
    row.orderedOn = entry.orderedOn();
    row.endsOn = entry.endsOn();
    row.ordered = entry.ordered().strip();
    row.restrictions = PatientChecks.orNull(entry.restrictions());
    row.recordedBy = signedIn.staffId();
    row.recordedAt = clock.instant();
    rows.persist(row);
    trail.record(
        Patients.subject(patient.id()),
        patient.locationId(),
        "order recorded",
        times.now(),
        null,
        view(row));
    return row.id;
  }

  /** Takes an order back, with a reason. */
  @Transactional
  public void withdraw(Long patientId, Long orderId, String reason) {
    PatientView patient = patients.byId(patientId);
    PrescriberOrder row = rows.findById(orderId);
    if (row == null || !row.patientId.equals(patientId)) {
      throw new NotFound("There is no such order for this patient.");
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
          "order withdrawn",
          times.now(),
          null,
          view(row));
    }
  }

  /** The patient's orders, newest first. */
  @Transactional
  public List<OrderView> of(Long patientId) {
    patients.byId(patientId);
    return rows.list("patientId = ?1 order by orderedOn desc, id desc", patientId).stream()
        .map(Orders::view)
        .toList();
  }

  /** The newest order that runs on the day. */
  @Transactional
  public Optional<OrderView> running(Long patientId, LocalDate day) {
    return of(patientId).stream().filter(order -> order.runsOn(day)).findFirst();
  }

  /**
   * Where the location's setting asks for an order before a unit goes home or stays longer: one
   * must run on the day.
   *
   * @param day a day of the location
   */
  @Transactional
  public void requireRunning(Long patientId, Long locationId, LocalDate day, Refusals refusals) {
    if (locations.settings(locationId).yes(Setting.ORDER_REQUIRED)
        && running(patientId, day).isEmpty()) {
      refusals.add(
          "order",
          "No current prescriber's order is on record.",
          "Enter it on the patient's page.");
    }
  }

  private static OrderView view(PrescriberOrder row) {
    return new OrderView(
        row.id,
        row.prescriber,
        row.orderedOn,
        row.endsOn,
        row.ordered,
        row.restrictions,
        row.withdrawnReason);
  }
}
