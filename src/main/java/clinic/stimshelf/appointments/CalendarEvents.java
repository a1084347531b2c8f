package clinic.stimshelf.appointments;

import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.RoomView;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.CalendarText;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/**
 * Appointments as events of a calendar. Cancelled ones stay as cancelled, so that calendars take
 * them out; nothing says what is treated.
 */
@ApplicationScoped
public class CalendarEvents {
  private static final int DAYS_BACK = 14;
  private static final int DAYS_AHEAD = 180;

  @Inject AppointmentRows rows;
  @Inject HandedOverRows handedOver;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject Trail trail;

  /**
   * A therapist's, from two weeks ago to half a year ahead: initials, time and room; what went to
   * another therapist as cancelled.
   */
  @Transactional
  List<CalendarText.Event> ofTherapist(Long staffId, Instant now) {
    Instant from = now.minusSeconds(DAYS_BACK * 86_400L);
    Instant to = now.plusSeconds(DAYS_AHEAD * 86_400L);
    List<Appointment> found =
        rows.list(
            "therapistId = ?1 and startsAt >= ?2 and startsAt < ?3 order by startsAt, id",
            staffId,
            from,
            to);
    Map<Long, PatientView> people =
        patients.byIds(found.stream().map(row -> row.patientId).distinct().toList());
    Map<Long, String> rooms = new HashMap<>();
    for (Long place : found.stream().map(row -> row.locationId).distinct().toList()) {
      for (RoomView room : locations.rooms(place)) {
        rooms.put(room.id(), room.name());
      }
    }
    List<CalendarText.Event> told = new ArrayList<>(gone(staffId, from, to));
    told.addAll(
        0,
        events(
            found,
            row -> initials(people.get(row.patientId).name()),
            (row, place) ->
                (row.roomId != null && rooms.containsKey(row.roomId)
                        ? rooms.get(row.roomId) + ", "
                        : "")
                    + place.name(),
            (row, place) -> null,
            row ->
                row.state == AppointmentState.CANCELLED
                    || (row.startsAt.isAfter(now) && people.get(row.patientId).diedOn() != null)));
    return told;
  }

  /** What is no longer theirs, as it last stood with them; nothing is said of the patient. */
  private List<CalendarText.Event> gone(Long staffId, Instant from, Instant to) {
    return handedOver
        .getEntityManager()
        .createQuery(
            "select h, a.bookedAt from HandedOver h join Appointment a on a.id = h.appointmentId"
                + " where h.therapistId = :staff and h.startsAt >= :from and h.startsAt < :to"
                + " and (a.therapistId is null or a.therapistId <> :staff)"
                + " order by h.startsAt, h.id",
            Object[].class)
        .setParameter("staff", staffId)
        .setParameter("from", from)
        .setParameter("to", to)
        .getResultList()
        .stream()
        .map(
            row -> {
              HandedOver left = (HandedOver) row[0];
              return new CalendarText.Event(
                  CalendarText.uid("appointment", left.appointmentId, (Instant) row[1]),
                  left.feedSequence,
                  left.handedAt,
                  left.startsAt,
                  left.endsAt,
                  null,
                  "With another therapist",
                  null,
                  null,
                  true);
            })
        .toList();
  }

  /** A patient's own, from today on: time and place, and whom to call. */
  @Transactional
  public List<CalendarText.Event> ofPatient(PatientView patient) {
    if (patient.diedOn() != null) {
      return List.of();
    }
    ZoneId zone = locations.zone(patient.locationId());
    LocalDate today = locations.today(patient.locationId());
    boolean spanish = "es".equals(patient.language());
    List<Appointment> found =
        rows.list(
            "patientId = ?1 and startsAt >= ?2 order by startsAt, id",
            patient.id(),
            today.atStartOfDay(zone).toInstant());
    return events(
        found,
        row -> spanish ? "Cita" : "Appointment",
        (row, place) ->
            place.address() == null ? place.name() : place.name() + ", " + place.address(),
        (row, place) ->
            place.phone() == null
                ? null
                : (spanish ? "Si no puede venir, llame al " : "If you cannot come, call ")
                    + place.phone(),
        row -> row.state == AppointmentState.CANCELLED);
  }

  private interface Told {
    String of(Appointment row, LocationView place);
  }

  private List<CalendarText.Event> events(
      List<Appointment> found,
      Function<Appointment, String> summary,
      Told where,
      Told words,
      Predicate<Appointment> cancelled) {
    Map<Long, LocationView> places =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, Function.identity()));
    Map<String, Instant> changed =
        trail.lastRecorded(
            "appointment", found.stream().map(row -> String.valueOf(row.id)).toList());
    return found.stream()
        .map(
            row -> {
              LocationView place = places.get(row.locationId);
              return new CalendarText.Event(
                  CalendarText.uid("appointment", row.id, row.bookedAt),
                  row.feedSequence,
                  changed.getOrDefault(String.valueOf(row.id), row.bookedAt),
                  row.startsAt,
                  row.endsAt,
                  null,
                  summary.apply(row),
                  where.of(row, place),
                  words.of(row, place),
                  cancelled.test(row));
            })
        .toList();
  }

  /** First letters of the first and the last word: AL for Ada Beth Lindqvist. */
  static String initials(String name) {
    String[] words = name.strip().split("[\\s]+");
    String first = words[0].substring(0, words[0].offsetByCodePoints(0, 1));
    if (words.length == 1) {
      return first.toUpperCase(Locale.ROOT);
    }
    String last = words[words.length - 1];
    return (first + last.substring(0, last.offsetByCodePoints(0, 1))).toUpperCase(Locale.ROOT);
  }
}
