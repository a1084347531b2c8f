package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.IfMatch;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import io.quarkus.panache.common.Parameters;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Booking, moving and cancelling. Of two who book the same time, one wins and the other hears. */
@ApplicationScoped
public class Appointments {
  @Inject AppointmentRows rows;
  @Inject AppointmentViews views;
  @Inject BookingRules rules;
  @Inject UnitPlans plans;
  @Inject FreeTimes free;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;
  @Inject Event<AppointmentChanged> changed;
  @Inject HandedOverRows handedOver;

  /**
   * @throws NotFound if there is none at the locations of the person asking
   */
  @Transactional
  public AppointmentView byId(Long id) {
    return views.of(List.of(row(id))).get(0);
  }

  /** Several by number, with as many questions to the database as for one. */
  @Transactional
  Map<Long, AppointmentView> byIds(Collection<Long> ids) {
    return ids.isEmpty()
        ? Map.of()
        : views.of(rows.list("id in ?1", ids)).stream()
            .collect(Collectors.toMap(AppointmentView::id, Function.identity()));
  }

  /** The day of a location, by time. */
  @Transactional
  public List<AppointmentView> ofDay(Long locationId, LocalDate day) {
    signedIn.requireLocation(locationId);
    ZoneId zone = locations.zone(locationId);
    return between(
        locationId,
        day.atStartOfDay(zone).toInstant(),
        day.plusDays(1).atStartOfDay(zone).toInstant());
  }

  /** What begins at a location between the two instants, by time. */
  @Transactional
  public List<AppointmentView> between(Long locationId, Instant from, Instant to) {
    return views.of(
        rows.list(
            "locationId = ?1 and startsAt >= ?2 and startsAt < ?3 order by startsAt, id",
            locationId,
            from,
            to));
  }

  /**
   * A list by location, days, patient and state; each may be {@code null} for any.
   *
   * @param from first day, at each location's own midnight
   * @param to last day
   */
  @Transactional
  public Page<AppointmentView> search(
      Collection<Long> locationIds,
      LocalDate from,
      LocalDate to,
      Long patientId,
      AppointmentState state,
      Paging paging) {
    if (locationIds.isEmpty()) {
      return new Page<>(List.of(), paging.page(), paging.size(), 0);
    }
    StringBuilder where = new StringBuilder();
    Parameters values = new Parameters();
    int number = 0;
    for (Long locationId : locationIds) {
      ZoneId zone = locations.zone(locationId);
      where.append(where.isEmpty() ? "((" : " or (").append("locationId = :l").append(number);
      values.and("l" + number, locationId);
      if (from != null) {
        where.append(" and startsAt >= :f").append(number);
        values.and("f" + number, from.atStartOfDay(zone).toInstant());
      }
      if (to != null) {
        where.append(" and startsAt < :t").append(number);
        values.and("t" + number, to.plusDays(1).atStartOfDay(zone).toInstant());
      }
      where.append(')');
      number++;
    }
    where.append(')');
    if (patientId != null) {
      where.append(" and patientId = :patient");
      values.and("patient", patientId);
    }
    if (state != null) {
      where.append(" and state = :state");
      values.and("state", state);
    }
    List<Appointment> found =
        rows.find(where + " order by startsAt, id", values)
            .page(paging.page(), paging.size())
            .list();
    return new Page<>(
        views.of(found), paging.page(), paging.size(), rows.count(where.toString(), values));
  }

  /**
   * Books.
   *
   * @return the number of the appointment
   * @throws clinic.stimshelf.web.InUse if others' use of room or unit is the sole reason; names the
   *     nearest free times
   * @throws Refusal with every reason otherwise
   */
  @Retried
  @Transactional
  public Long book(NewAppointment asked) {
    NewAppointment wanted = asked.complete();
    signedIn.requireLocation(wanted.locationId());
    rules.check(wanted, null);
    return enter(wanted, times.now());
  }

  /** Writes an appointment that was looked at already. */
  Long enter(NewAppointment wanted, Happened happened) {
    Appointment row = new Appointment();
    row.locationId = wanted.locationId();
    row.patientId = wanted.patientId();
    row.state = AppointmentState.BOOKED;
    row.bookedAt = clock.instant();
    fill(row, wanted);
    rows.persist(row);
    record(row, "booked", happened, null);
    plan(row, row.startsAt, wanted);
    return row.id;
  }

  /**
   * Moves a booked appointment, to another time, room, therapist or unit.
   *
   * @param version as read; {@code null} for whatever stands there
   */
  @Retried
  @Transactional
  public void move(Long id, Integer version, NewAppointment asked) {
    NewAppointment wanted = asked.complete();
    Appointment row = locked(id);
    IfMatch.require(version, row.version, "This appointment");
    if (row.state != AppointmentState.BOOKED) {
      throw new Refusal(
          null, "It is " + row.state.words() + ", so it cannot be moved.", "Book another one.");
    }
    if (!row.patientId.equals(wanted.patientId()) || !row.locationId.equals(wanted.locationId())) {
      throw new Refusal(
          "patient",
          "An appointment stays with its patient and location.",
          "Cancel it and book another one.");
    }
    rules.check(wanted, id);
    Appointment.Facts before = row.facts();
    fill(row, wanted);
    if (!before.equals(row.facts())) {
      record(row, "moved", times.now(), before);
      plan(row, before.startsAt(), wanted);
    }
  }

  /**
   * Lets the plan of the day, and of the day that it was on before, follow.
   *
   * @throws InUse if the unit named by hand was planned for a treatment that no other can serve
   */
  private void plan(Appointment row, Instant before, NewAppointment wanted) {
    LocalDate day = LocalDate.ofInstant(row.startsAt, zone(row));
    List<PlannedDay.Line> changed = plans.follow(row.locationId, day);
    if (wanted.unitId() != null && changed.stream().anyMatch(PlannedDay.Line::lost)) {
      throw new InUse(
          "The unit is planned for another treatment at that time, and no other unit could serve"
              + " that one. "
              + free.words(wanted, row.id));
    }
    LocalDate left = LocalDate.ofInstant(before, zone(row));
    if (!left.equals(day)) {
      plans.follow(row.locationId, left);
    }
  }

  /** The patient came without the unit on loan to them, or has it after all. */
  @Retried
  @Transactional
  public void forgotten(Long id, boolean forgotten) {
    Appointment row = locked(id);
    if (row.state.over()) {
      throw new Refusal(null, "It is " + row.state.words() + " already.");
    }
    if (row.loanedForgotten != forgotten) {
      Appointment.Facts before = row.facts();
      row.loanedForgotten = forgotten;
      record(
          row,
          forgotten ? "came without the unit on loan" : "has the unit on loan along",
          times.now(),
          before);
      plans.follow(row.locationId, LocalDate.ofInstant(row.startsAt, zone(row)));
    }
  }

  /**
   * Cancels a booked appointment, or one whose patient arrived and whose treatment has not begun.
   *
   * @param reason who called it off and why
   */
  @Retried
  @Transactional
  public void cancel(Long id, String reason, Instant happenedAt, String lateReason) {
    Appointment row = locked(id);
    Refusals refusals = new Refusals();
    if (row.state.over() || row.unitInUse) {
      refusals.add(
          null,
          row.unitInUse ? "The treatment has begun." : "It is " + row.state.words() + " already.",
          row.unitInUse ? "Complete it instead, as not done." : null);
    }
    if (reason == null || reason.isBlank() || reason.length() > 500) {
      refusals.add("reason", "Say in at most 500 characters why it is cancelled.");
    }
    Happened happened = times.of(happenedAt, lateReason, zone(row), refusals);
    refusals.throwIfAny();
    Appointment.Facts before = row.facts();
    row.state = AppointmentState.CANCELLED;
    row.reason = reason.strip();
    record(row, "cancelled", happened, before);
    plans.follow(row.locationId, LocalDate.ofInstant(row.startsAt, zone(row)));
  }

  /** The nearest times at which the wanted appointment would collide with nothing. */
  @Transactional
  public List<Instant> freeTimes(NewAppointment wanted, int most) {
    signedIn.requireLocation(wanted.locationId());
    return free.near(wanted.complete(), null, most);
  }

  Appointment locked(Long id) {
    Appointment row = rows.locked(id);
    if (!signedIn.mayActAt(row.locationId)) {
      throw new NotFound("There is no such appointment at your locations.");
    }
    return row;
  }

  ZoneId zone(Appointment row) {
    return locations.zone(row.locationId);
  }

  void record(Appointment row, String action, Happened happened, Appointment.Facts before) {
    if (before != null) {
      handedOver.follow(row, before);
    }
    trail.record(
        Subject.of("appointment", row.id), row.locationId, action, happened, before, row.facts());
    changed.fire(new AppointmentChanged(row.id, row.patientId, row.locationId));
  }

  private Appointment row(Long id) {
    Appointment row = id == null ? null : rows.findById(id);
    if (row == null || !signedIn.mayActAt(row.locationId)) {
      throw new NotFound("There is no such appointment at your locations.");
    }
    return row;
  }

  static void fill(Appointment row, NewAppointment wanted) {
    row.therapistId = wanted.therapistId();
    row.roomId = wanted.roomId();
    if (wanted.unitId() != null || !row.unitPlanned || wanted.channels() == 0) {
      row.unitId = wanted.unitId();
      row.unitPlanned = false;
    }
    row.startsAt = wanted.startsAt();
    row.endsAt = wanted.endsAt();
    row.treatmentStartsAt = wanted.treatmentStartsAt();
    row.treatmentEndsAt = wanted.treatmentEndsAt();
    row.channels = wanted.channels();
    row.note = wanted.note() == null || wanted.note().isBlank() ? null : wanted.note().strip();
  }
}
