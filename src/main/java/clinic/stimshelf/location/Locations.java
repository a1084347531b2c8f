package clinic.stimshelf.location;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.calc.days.OpenDays;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** The clinic's locations: hours, closures, rooms, settings. Owns what may be changed in them. */
@ApplicationScoped
public class Locations {
  private static final Pattern CODE = Pattern.compile("[A-Za-z0-9._-]{1,32}");

  @Inject LocationRows rows;
  @Inject OpeningHoursRows hourRows;
  @Inject Closures closures;
  @Inject Rooms rooms;
  @Inject LocationSettingRows settingRows;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;
  @Inject Event<ClosuresChanged> closuresChanged;
  @Inject Event<LocationAdded> locationAdded;

  /** Every location, by name. */
  @Transactional
  public List<LocationView> all() {
    return rows.list("order by name").stream().map(Locations::view).toList();
  }

  /**
   * @throws NotFound if there is none
   */
  @Transactional
  public LocationView byId(Long id) {
    return view(row(id));
  }

  /**
   * @throws NotFound if there is none
   */
  @Transactional
  public LocationView byCode(String code) {
    return view(
        rows.find("code", code)
            .firstResultOptional()
            .orElseThrow(() -> new NotFound("There is no location with the code “" + code + "”.")));
  }

  /** The location's day now. */
  @Transactional
  public LocalDate today(Long locationId) {
    return LocalDate.ofInstant(clock.instant(), zone(locationId));
  }

  @Transactional
  public ZoneId zone(Long locationId) {
    return ZoneId.of(row(locationId).zone);
  }

  /** Which days the location is open: weekly hours less closed days. A half day is an open day. */
  @Transactional
  public OpenDays openDays(Long locationId) {
    Set<DayOfWeek> weekdays = EnumSet.noneOf(DayOfWeek.class);
    for (OpeningHours hours : hourRows.list("locationId", locationId)) {
      weekdays.add(DayOfWeek.of(hours.weekday));
    }
    List<LocalDate> closed =
        closures.list("locationId = ?1 and opens is null", locationId).stream()
            .map(closure -> closure.onDay)
            .toList();
    return OpenDays.of(weekdays, closed);
  }

  /** The stretches of a day during which the location is open, in order; empty if it is closed. */
  @Transactional
  public List<DayHours> hours(Long locationId, LocalDate day) {
    Closure closure =
        closures.find("locationId = ?1 and onDay = ?2", locationId, day).firstResult();
    if (closure != null) {
      return closure.closedAllDay()
          ? List.of()
          : List.of(new DayHours(closure.opens, closure.closes));
    }
    return hourRows
        .list(
            "locationId = ?1 and weekday = ?2 order by opens",
            locationId,
            day.getDayOfWeek().getValue())
        .stream()
        .map(hours -> new DayHours(hours.opens, hours.closes))
        .toList();
  }

  /** The same for each day from one to another, both included, with two questions. */
  @Transactional
  public Map<LocalDate, List<DayHours>> hours(Long locationId, LocalDate from, LocalDate to) {
    Map<DayOfWeek, List<DayHours>> weekly = weeklyHours(locationId);
    Map<LocalDate, List<DayHours>> days = new TreeMap<>();
    for (LocalDate day = from; !day.isAfter(to); day = day.plusDays(1)) {
      days.put(day, weekly.getOrDefault(day.getDayOfWeek(), List.of()));
    }
    for (Closure closure :
        closures.list("locationId = ?1 and onDay >= ?2 and onDay <= ?3", locationId, from, to)) {
      days.put(
          closure.onDay,
          closure.closedAllDay()
              ? List.of()
              : List.of(new DayHours(closure.opens, closure.closes)));
    }
    return days;
  }

  /**
   * When the location closes on a day; on a closed day its end, so that something due then is not
   * late before the day is over.
   */
  @Transactional
  public Instant closingTime(Long locationId, LocalDate day) {
    List<DayHours> hours = hours(locationId, day);
    ZoneId zone = zone(locationId);
    return hours.isEmpty()
        ? day.plusDays(1).atStartOfDay(zone).toInstant()
        : day.atTime(hours.get(hours.size() - 1).closes()).atZone(zone).toInstant();
  }

  /** Weekly hours, Monday first; a weekday without hours is absent. */
  @Transactional
  public Map<DayOfWeek, List<DayHours>> weeklyHours(Long locationId) {
    return hourRows.list("locationId = ?1 order by weekday, opens", locationId).stream()
        .collect(
            Collectors.groupingBy(
                hours -> DayOfWeek.of(hours.weekday),
                TreeMap::new,
                Collectors.mapping(
                    hours -> new DayHours(hours.opens, hours.closes), Collectors.toList())));
  }

  /** Closures from a day on, in order. */
  @Transactional
  public List<ClosureView> closuresFrom(Long locationId, LocalDate day) {
    return closures.list("locationId = ?1 and onDay >= ?2 order by onDay", locationId, day).stream()
        .map(c -> new ClosureView(c.onDay, c.opens, c.closes, c.reason))
        .toList();
  }

  @Transactional
  public List<RoomView> rooms(Long locationId) {
    return rooms.list("locationId = ?1 and active = true order by name", locationId).stream()
        .map(room -> new RoomView(room.id, room.name, room.capacity))
        .toList();
  }

  /** What patients read after hours and in an emergency, in their language as far as there is. */
  @Transactional
  public UrgentWords urgentWords(Long locationId, String lang) {
    return UrgentWords.of(byId(locationId), settings(locationId), lang);
  }

  @Transactional
  public LocationSettings settings(Long locationId) {
    Map<Setting, String> chosen = new EnumMap<>(Setting.class);
    for (LocationSetting row : settingRows.list("locationId", locationId)) {
      Setting setting = Setting.byKey(row.name);
      if (setting != null) {
        chosen.put(setting, row.settingValue);
      }
    }
    return new LocationSettings(chosen);
  }

  /**
   * Adds a location.
   *
   * @return its number
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public Long add(NewLocation wanted) {
    Refusals refusals = new Refusals();
    if (wanted.code() == null || !CODE.matcher(wanted.code()).matches()) {
      refusals.add("code", "A location's code has 1 to 32 letters, digits, dots, dashes or _.");
    } else if (rows.count("code", wanted.code()) > 0) {
      refusals.add("code", "Another location has the code “" + wanted.code() + "”.");
    }
    checkNames(wanted.name(), wanted.zone(), refusals);
    checkHours(wanted.hours(), refusals);
    refusals.throwIfAny();
    Location row = new Location();
    row.code = wanted.code();
    write(row, wanted);
    rows.persist(row);
    rows.flush();
    writeHours(row.id, wanted.hours());
    wanted.rooms().forEach((name, capacity) -> addRoom(row.id, name, capacity));
    trail.record(subject(row), row.id, "added", times.now(), null, view(row));
    locationAdded.fire(new LocationAdded(row.id));
    return row.id;
  }

  /** Changes name, words and weekly hours; rooms are left as they are. */
  @Transactional
  public void change(Long id, NewLocation wanted) {
    Refusals refusals = new Refusals();
    checkNames(wanted.name(), wanted.zone(), refusals);
    checkHours(wanted.hours(), refusals);
    refusals.throwIfAny();
    Location row = row(id);
    LocationView before = view(row);
    write(row, wanted);
    hourRows.delete("locationId", id);
    writeHours(id, wanted.hours());
    trail.record(subject(row), id, "changed", times.now(), before, view(row));
    closuresChanged.fire(new ClosuresChanged(id));
  }

  /** Adds a room or, where the name exists, sets its capacity. */
  @Transactional
  public void addRoom(Long locationId, String name, int capacity) {
    Refusals refusals = new Refusals();
    if (name == null || name.isBlank() || name.length() > 60) {
      refusals.add("room", "A room needs a name of at most 60 characters.");
    }
    if (capacity < 1 || capacity > 100) {
      refusals.add("capacity", "A room treats 1 to 100 people at once, not " + capacity + ".");
    }
    refusals.throwIfAny();
    Room room =
        rooms
            .find("locationId = ?1 and name = ?2", locationId, name.strip())
            .firstResultOptional()
            .orElseGet(Room::new);
    room.locationId = locationId;
    room.name = name.strip();
    room.capacity = capacity;
    room.active = true;
    rooms.persist(room);
  }

  /** Enters a closed day or a half day; the day's earlier entry is replaced. */
  @Transactional
  public void close(Long locationId, ClosureView closure) {
    Refusals refusals = new Refusals();
    if (closure.day() == null) {
      refusals.add("day", "Which day?");
    }
    if (closure.reason() == null || closure.reason().isBlank()) {
      refusals.add("reason", "Say why, for instance the holiday's name.");
    }
    if ((closure.opens() == null) != (closure.closes() == null)) {
      refusals.add("opens", "A half day needs both times; a closed day has none.");
    } else if (closure.opens() != null && !closure.opens().isBefore(closure.closes())) {
      refusals.add("closes", "A half day ends after it begins.");
    }
    refusals.throwIfAny();
    Closure row =
        closures
            .find("locationId = ?1 and onDay = ?2", locationId, closure.day())
            .firstResultOptional()
            .orElseGet(Closure::new);
    row.locationId = locationId;
    row.onDay = closure.day();
    row.opens = closure.opens();
    row.closes = closure.closes();
    row.reason = closure.reason().strip();
    row.enteredAt = clock.instant();
    closures.persist(row);
    trail.record(subject(row(locationId)), locationId, "closed", times.now(), null, closure);
    closuresChanged.fire(new ClosuresChanged(locationId));
  }

  /** Takes a closure back, so that the weekly hours count again. */
  @Transactional
  public void reopen(Long locationId, LocalDate day) {
    Closure row = closures.find("locationId = ?1 and onDay = ?2", locationId, day).firstResult();
    if (row == null) {
      throw new NotFound("No closure is entered for that day.");
    }
    ClosureView before = new ClosureView(row.onDay, row.opens, row.closes, row.reason);
    closures.delete(row);
    trail.record(subject(row(locationId)), locationId, "reopened", times.now(), before, null);
    closuresChanged.fire(new ClosuresChanged(locationId));
  }

  /** Chooses settings by key; a blank value goes back to what is proposed. */
  @Transactional
  public void choose(Long locationId, Map<String, String> values) {
    Refusals refusals = new Refusals();
    values.forEach(
        (key, value) -> {
          Setting setting = Setting.byKey(key);
          if (setting == null) {
            refusals.add(key, "There is no setting “" + key + "”.");
          } else if (!value.isBlank() && !setting.allows(value.strip())) {
            refusals.add(key, setting.label() + " must be " + setting.allowed() + ".");
          }
        });
    refusals.throwIfAny();
    Map<String, String> before = new TreeMap<>();
    Map<String, String> after = new TreeMap<>();
    values.forEach(
        (key, value) -> {
          LocationSetting row =
              settingRows
                  .find("locationId = ?1 and name = ?2", locationId, key)
                  .firstResultOptional()
                  .orElse(null);
          String old = row == null ? "" : row.settingValue;
          if (old.equals(value.strip())) {
            return;
          }
          before.put(key, old);
          after.put(key, value.strip());
          if (value.isBlank()) {
            settingRows.delete(row);
          } else {
            LocationSetting kept = row == null ? new LocationSetting() : row;
            kept.locationId = locationId;
            kept.name = key;
            kept.settingValue = value.strip();
            settingRows.persist(kept);
          }
        });
    if (!after.isEmpty()) {
      trail.record(
          subject(row(locationId)), locationId, "settings changed", times.now(), before, after);
    }
  }

  private Location row(Long id) {
    Location row = rows.findById(id);
    if (row == null) {
      throw new NotFound("There is no such location.");
    }
    return row;
  }

  private static void checkNames(String name, String zone, Refusals refusals) {
    if (name == null || name.isBlank() || name.length() > 120) {
      refusals.add("name", "A location needs a name of at most 120 characters.");
    }
    try {
      ZoneId.of(zone == null ? "" : zone);
    } catch (DateTimeException unknown) {
      refusals.add("zone", "“" + zone + "” is not a time zone, such as America/New_York.");
    }
  }

  private static void checkHours(Map<DayOfWeek, List<DayHours>> hours, Refusals refusals) {
    if (hours == null || hours.values().stream().allMatch(List::isEmpty)) {
      refusals.add("hours", "A location must be open on some weekday.");
      return;
    }
    hours.forEach(
        (weekday, stretches) -> {
          LocalTime free = LocalTime.MIN;
          for (DayHours stretch : stretches) {
            if (stretch.opens().isBefore(free) || !stretch.opens().isBefore(stretch.closes())) {
              refusals.add(
                  "hours",
                  "The hours of "
                      + weekday.toString().toLowerCase(java.util.Locale.ROOT)
                      + " must follow one another, each with its end after its beginning.");
              return;
            }
            free = stretch.closes();
          }
        });
  }

  private static void write(Location row, NewLocation wanted) {
    row.name = wanted.name().strip();
    row.zone = wanted.zone();
    row.phone = wanted.phone();
    row.address = wanted.address();
    row.afterHoursWords = wanted.afterHoursWords();
    row.emergencyWords = wanted.emergencyWords();
  }

  private void writeHours(Long locationId, Map<DayOfWeek, List<DayHours>> hours) {
    hours.forEach(
        (weekday, stretches) ->
            stretches.forEach(
                stretch -> {
                  OpeningHours row = new OpeningHours();
                  row.locationId = locationId;
                  row.weekday = weekday.getValue();
                  row.opens = stretch.opens();
                  row.closes = stretch.closes();
                  hourRows.persist(row);
                }));
  }

  private static Subject subject(Location row) {
    return Subject.of("location", row.code);
  }

  private static LocationView view(Location row) {
    return new LocationView(
        row.id,
        row.code,
        row.name,
        ZoneId.of(row.zone),
        row.phone,
        row.address,
        row.afterHoursWords,
        row.emergencyWords);
  }
}
