package clinic.stimshelf.exchange;

import clinic.stimshelf.location.DayHours;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.NewLocation;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.DayOfWeek;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Locations with their weekly hours and rooms. */
@ApplicationScoped
class LocationFile implements FileFormat {
  private static final Pattern ROOM = Pattern.compile("(.+?)\\s*:\\s*(\\d{1,3})");

  private static final Column<String> CODE = Column.code("code").required();
  private static final Column<String> NAME = Column.text("name", 120).required();
  private static final Column<String> ZONE = Column.text("zone", 64).required();
  private static final Column<List<HoursText.WeekdayHours>> HOURS =
      Column.list(
              "hours",
              "a weekday and its hours, such as mon 08:00-12:00 13:00-17:00",
              HoursText::weekday)
          .required();
  private static final Column<List<RoomSize>> ROOMS =
      Column.list(
          "rooms", "a room and how many it treats at once, such as Gym: 4", LocationFile::room);
  private static final Column<String> PHONE = Column.text("phone", 40);
  private static final Column<String> ADDRESS = Column.text("address", 300);
  private static final Column<String> AFTER_HOURS = Column.text("after_hours_words", 500);
  private static final Column<String> EMERGENCY = Column.text("emergency_words", 500);

  private record RoomSize(String name, int capacity) {}

  @Inject Locations locations;

  @Override
  public String what() {
    return "locations";
  }

  @Override
  public String title() {
    return "Locations, with weekly hours and rooms";
  }

  @Override
  public int order() {
    return 10;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(CODE, NAME, ZONE, HOURS, ROOMS, PHONE, ADDRESS, AFTER_HOURS, EMERGENCY);
  }

  @Override
  public String name(Row row) {
    return row.text(CODE);
  }

  @Override
  public String taken() {
    return "select code from location";
  }

  @Override
  public void enter(Row row) {
    Map<DayOfWeek, List<DayHours>> hours = new EnumMap<>(DayOfWeek.class);
    row.get(HOURS)
        .forEach(
            day ->
                hours
                    .computeIfAbsent(day.weekday(), d -> new ArrayList<>())
                    .addAll(day.stretches()));
    Map<String, Integer> rooms = new LinkedHashMap<>();
    row.or(ROOMS, List.of()).forEach(room -> rooms.put(room.name, room.capacity));
    locations.add(
        new NewLocation(
            row.get(CODE),
            row.get(NAME),
            row.get(ZONE),
            row.get(PHONE),
            row.get(ADDRESS),
            row.get(AFTER_HOURS),
            row.get(EMERGENCY),
            hours,
            rooms));
  }

  private static RoomSize room(String text) {
    Matcher room = ROOM.matcher(text);
    if (!room.matches()) {
      throw new IllegalArgumentException(text);
    }
    return new RoomSize(room.group(1), Integer.parseInt(room.group(2)));
  }

  @Override
  public String export() {
    return "select l.id, l.code, l.name, l.zone, l.phone, l.address, l.after_hours_words,"
        + " l.emergency_words from location l where l.id in (:locations) order by l.code";
  }

  @Override
  public Map<String, String> more(Map<String, Object> found) {
    Long id = ((Number) found.get("id")).longValue();
    List<String> hours = new ArrayList<>();
    locations
        .weeklyHours(id)
        .forEach((weekday, stretches) -> hours.add(HoursText.write(weekday, stretches)));
    List<String> rooms =
        locations.rooms(id).stream().map(room -> room.name() + ": " + room.capacity()).toList();
    return Map.of("hours", String.join(" | ", hours), "rooms", String.join(" | ", rooms));
  }
}
