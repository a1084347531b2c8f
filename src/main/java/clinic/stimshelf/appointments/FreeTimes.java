package clinic.stimshelf.appointments;

import clinic.stimshelf.location.DayHours;
import clinic.stimshelf.location.LocationSettings;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.RoomView;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Times at which an appointment would collide with nothing. */
@ApplicationScoped
class FreeTimes {
  private static final int STEP_MINUTES = 15;
  private static final int DAYS_AHEAD = 14;

  @Inject AppointmentRows rows;
  @Inject Locations locations;
  @Inject Clock clock;

  /** What would collide with what at the location. */
  Collisions collisions(NewAppointment wanted) {
    LocationSettings settings = locations.settings(wanted.locationId());
    int capacity =
        locations.rooms(wanted.locationId()).stream()
            .filter(room -> room.id().equals(wanted.roomId()))
            .mapToInt(RoomView::capacity)
            .findFirst()
            .orElse(1);
    return new Collisions(
        capacity,
        Duration.ofMinutes(settings.whole(Setting.TREATMENT_SETUP_MINUTES)),
        Duration.ofMinutes(settings.whole(Setting.TREATMENT_WIPE_MINUTES)));
  }

  /** Whether the location is open for the whole appointment. */
  boolean open(NewAppointment wanted) {
    ZoneId zone = locations.zone(wanted.locationId());
    LocalDate day = LocalDate.ofInstant(wanted.startsAt(), zone);
    return locations.hours(wanted.locationId(), day).stream()
        .anyMatch(hours -> within(hours, day, zone, wanted));
  }

  /**
   * The nearest times instead: on the same day, earlier or later, then on the days after.
   *
   * @param notThis an appointment that is to be moved, or {@code null}
   */
  List<Instant> near(NewAppointment wanted, Long notThis, int most) {
    ZoneId zone = locations.zone(wanted.locationId());
    LocalDate first = LocalDate.ofInstant(wanted.startsAt(), zone);
    LocalDate last = first.plusDays(DAYS_AHEAD);
    List<Taken> others =
        rows.taken(
            wanted.patientId(),
            wanted.roomId(),
            wanted.unitId(),
            first.atStartOfDay(zone).toInstant(),
            last.plusDays(1).atStartOfDay(zone).toInstant(),
            notThis);
    Collisions collisions = collisions(wanted);
    Instant now = clock.instant();
    List<Instant> found = new ArrayList<>();
    Map<LocalDate, List<DayHours>> open = locations.hours(wanted.locationId(), first, last);
    for (LocalDate day = first; !day.isAfter(last) && found.size() < most; day = day.plusDays(1)) {
      for (Instant start : starts(wanted, day, zone, open.get(day))) {
        if (found.size() < most
            && !start.isBefore(now)
            && collisions.none(wanted.at(start), others)) {
          found.add(start);
        }
      }
    }
    return found;
  }

  /** The same as a sentence. */
  String words(NewAppointment wanted, Long notThis) {
    ZoneId zone = locations.zone(wanted.locationId());
    List<Instant> near = near(wanted, notThis, 3);
    return near.isEmpty()
        ? "Nothing is free within " + DAYS_AHEAD + " days; take another room or unit."
        : near.stream()
            .map(start -> Days.words(start.atZone(zone)))
            .collect(Collectors.joining("; ", "Free: ", "."));
  }

  /**
   * Every start of that day at which the location is open long enough, nearest to the wish first.
   */
  static List<Instant> starts(
      NewAppointment wanted, LocalDate day, ZoneId zone, List<DayHours> open) {
    List<Instant> starts = new ArrayList<>();
    for (DayHours hours : open) {
      LocalTime time = hours.opens();
      while (time.isBefore(hours.closes())) {
        Instant start = day.atTime(time).atZone(zone).toInstant();
        if (within(hours, day, zone, wanted.at(start))) {
          starts.add(start);
        }
        LocalTime next = time.plusMinutes(STEP_MINUTES);
        time = next.isAfter(time) ? next : hours.closes();
      }
    }
    LocalTime wish = wanted.startsAt().atZone(zone).toLocalTime();
    starts.sort(
        Comparator.comparing(
            start -> Duration.between(wish, start.atZone(zone).toLocalTime()).abs()));
    return starts;
  }

  private static boolean within(DayHours hours, LocalDate day, ZoneId zone, NewAppointment wanted) {
    Instant opens = day.atTime(hours.opens()).atZone(zone).toInstant();
    Instant closes = day.atTime(hours.closes()).atZone(zone).toInstant();
    return !wanted.startsAt().isBefore(opens) && !wanted.endsAt().isAfter(closes);
  }
}
