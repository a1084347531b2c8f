package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.JustEntered;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/** Takes over appointments of a file. */
@ApplicationScoped
public class AppointmentEntry {
  @Inject AppointmentRows rows;
  @Inject FreeTimes free;
  @Inject UnitPlans plans;
  @Inject Locations locations;
  @Inject Patients patients;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject JustEntered justEntered;
  @Inject Clock clock;

  /**
   * Enters an appointment. What is past is taken as it was; what is still to come must collide with
   * nothing, so that it can be kept.
   *
   * @return the number of the new or the known appointment
   * @throws clinic.stimshelf.web.Refusal with everything that stands against the row
   */
  @Transactional
  public Long enter(EnteredAppointment entry) {
    Long known = justEntered.find("appointment", entry.ref());
    if (known == null && entry.ref() != null) {
      known = rows.byRef(entry.ref()).orElse(null);
    }
    if (known != null) {
      return known;
    }
    NewAppointment wanted = entry.wanted();
    check(entry, wanted);
    Appointment row = new Appointment();
    row.ref = entry.ref();
    row.locationId = entry.locationId();
    row.patientId = entry.patientId();
    row.bookedAt = clock.instant();
    Appointments.fill(row, wanted);
    row.state = entry.state();
    row.reason = entry.reason();
    if (came(entry.state())) {
      row.arrivedAt = entry.startsAt();
      row.completedAt = entry.state().over() ? entry.endsAt() : null;
    }
    rows.persist(row);
    justEntered.add("appointment", entry.ref(), row.id);
    Instant now = clock.instant();
    trail.record(
        Subject.of("appointment", row.id),
        row.locationId,
        "imported",
        Happened.at(entry.startsAt().isBefore(now) ? entry.startsAt() : now),
        null,
        row.facts());
    return row.id;
  }

  /** Lets the plans of the days ahead follow on which treatments were entered without a unit. */
  @Transactional
  public void planUnits() {
    for (LocationView place : locations.all()) {
      rows
          .list(
              "locationId = ?1 and state = ?2 and startsAt > ?3 and treatmentStartsAt is not null"
                  + " and unitId is null",
              place.id(),
              AppointmentState.BOOKED,
              clock.instant())
          .stream()
          .map(row -> LocalDate.ofInstant(row.startsAt, place.zone()))
          .distinct()
          .sorted()
          .forEach(day -> plans.follow(place.id(), day));
    }
  }

  private void check(EnteredAppointment entry, NewAppointment wanted) {
    Refusals refusals = new Refusals();
    if (entry.locationId() == null || !signedIn.mayActAt(entry.locationId())) {
      refusals.add("location", "Name one of your locations.");
      refusals.throwIfAny();
    }
    patients.byId(entry.patientId());
    boolean timely = BookingRules.checkTimes(wanted, refusals);
    if (entry.state() == null) {
      refusals.add("state", "How does the appointment stand?");
    } else if (timely
        && entry.state().over()
        && entry.startsAt().isAfter(clock.instant())
        && entry.state() != AppointmentState.CANCELLED) {
      refusals.add("state", "What is still to come is booked or cancelled.");
    }
    if (entry.reason() != null && entry.reason().length() > 500) {
      refusals.add("reason", "A reason has at most 500 characters.");
    }
    if (timely
        && entry.state() == AppointmentState.BOOKED
        && entry.startsAt().isAfter(clock.instant())) {
      checkCollisions(wanted, refusals);
    }
    refusals.throwIfAny();
  }

  private void checkCollisions(NewAppointment wanted, Refusals refusals) {
    List<Taken> others =
        rows.taken(
            wanted.patientId(),
            wanted.roomId(),
            wanted.unitId(),
            wanted.startsAt().minus(BookingRules.LONGEST),
            wanted.endsAt().plus(BookingRules.LONGEST),
            null);
    Collisions collisions = free.collisions(wanted);
    if (!collisions.ofPatient(wanted, others).isEmpty()) {
      refusals.add("patient", "The patient has another appointment at that time.");
    }
    if (!collisions.ofUnit(wanted, others).isEmpty()) {
      refusals.add("unit", "The unit is booked for another treatment at that time.");
    }
    if (collisions.roomFull(wanted, others)) {
      refusals.add("room", "The room is full at that time (" + collisions.capacity() + ").");
    }
  }

  private static boolean came(AppointmentState state) {
    return state == AppointmentState.DONE
        || state == AppointmentState.PARTIAL
        || state == AppointmentState.ARRIVED;
  }
}
