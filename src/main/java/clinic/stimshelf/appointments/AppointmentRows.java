package clinic.stimshelf.appointments;

import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.web.NotFound;
import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.FlushModeType;
import jakarta.persistence.LockModeType;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

@ApplicationScoped
class AppointmentRows implements PanacheRepository<Appointment> {

  /**
   * The row, locked until the transaction ends.
   *
   * @throws NotFound if there is none
   */
  Appointment locked(Long id) {
    Appointment row =
        getEntityManager().find(Appointment.class, id, LockModeType.PESSIMISTIC_WRITE);
    if (row == null) {
      throw new NotFound("There is no such appointment.");
    }
    return row;
  }

  /**
   * Everything that takes up time of the patient, the room or the unit between the two instants.
   *
   * @param notThis an appointment to leave out, or {@code null}
   */
  List<Taken> taken(
      Long patientId, Long roomId, Long unitId, Instant from, Instant to, Long notThis) {
    return getEntityManager()
        .createQuery(
            "select new clinic.stimshelf.appointments.Taken(a.id, a.patientId, a.therapistId,"
                + " a.roomId, a.unitId, a.unitPlanned, a.startsAt, a.endsAt, a.treatmentStartsAt,"
                + " a.treatmentEndsAt)"
                + " from Appointment a where (a.patientId = :patient or a.roomId = :room"
                + " or (a.unitId = :unit and a.unitPlanned = false)) and a.startsAt < :to and a.endsAt > :from"
                + " and a.state in :taking and a.id <> :notThis",
            Taken.class)
        .setParameter("patient", patientId)
        .setParameter("room", roomId == null ? -1L : roomId)
        .setParameter("unit", unitId == null ? -1L : unitId)
        .setParameter("from", from)
        .setParameter("to", to)
        .setParameter("taking", AppointmentState.TAKING)
        .setParameter("notThis", notThis == null ? -1L : notThis)
        .getResultList();
  }

  /** Treatments of a location that are still to come or run, by start. */
  List<Appointment> treatments(Long locationId, Instant from, Instant to) {
    return list(
        "locationId = ?1 and state in ?2 and startsAt >= ?3 and startsAt < ?4"
            + " and treatmentStartsAt is not null order by startsAt, id",
        locationId,
        AppointmentState.OPEN,
        from,
        to);
  }

  /** Open appointments of the therapists, by therapist and day. */
  Map<Long, Map<LocalDate, List<Taken>>> ofTherapistsByDay(
      Collection<Long> therapistIds, Instant from, Instant to, ZoneId zone) {
    Map<Long, Map<LocalDate, List<Taken>>> found = new HashMap<>();
    if (therapistIds.isEmpty()) {
      return found;
    }
    getEntityManager()
        .createQuery(
            "select new clinic.stimshelf.appointments.Taken(a.id, a.patientId, a.therapistId,"
                + " a.roomId, a.unitId, a.unitPlanned, a.startsAt, a.endsAt, a.treatmentStartsAt,"
                + " a.treatmentEndsAt) from Appointment a where a.therapistId in :therapists"
                + " and a.startsAt < :to and a.endsAt > :from and a.state in :open",
            Taken.class)
        .setParameter("therapists", therapistIds)
        .setParameter("from", from)
        .setParameter("to", to)
        .setParameter("open", AppointmentState.OPEN)
        .getResultList()
        .forEach(
            one ->
                found
                    .computeIfAbsent(one.therapistId(), id -> new HashMap<>())
                    .computeIfAbsent(
                        LocalDate.ofInstant(one.startsAt(), zone), day -> new ArrayList<>())
                    .add(one));
    return found;
  }

  /** When the therapists are booked between the two instants, at whatever location. */
  Map<Long, List<Span<Instant>>> ofTherapists(
      Collection<Long> therapistIds, Instant from, Instant to) {
    if (therapistIds.isEmpty()) {
      return Map.of();
    }
    Map<Long, List<Span<Instant>>> busy = new HashMap<>();
    getEntityManager()
        .createQuery(
            "select a.therapistId, a.startsAt, a.endsAt from Appointment a"
                + " where a.therapistId in :therapists and a.startsAt < :to and a.endsAt > :from"
                + " and a.state in :taking",
            Object[].class)
        .setParameter("therapists", therapistIds)
        .setParameter("from", from)
        .setParameter("to", to)
        .setParameter("taking", AppointmentState.TAKING)
        .getResultStream()
        .forEach(
            row ->
                busy.computeIfAbsent((Long) row[0], id -> new ArrayList<>())
                    .add(Span.of((Instant) row[1], (Instant) row[2])));
    return busy;
  }

  /** Number of the appointment a file calls that; does not write what is pending. */
  Optional<Long> byRef(String ref) {
    return getEntityManager()
        .createQuery("select a.id from Appointment a where a.ref = :ref", Long.class)
        .setParameter("ref", ref)
        .setFlushMode(FlushModeType.COMMIT)
        .getResultStream()
        .findFirst();
  }
}
