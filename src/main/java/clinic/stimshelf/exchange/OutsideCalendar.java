package clinic.stimshelf.exchange;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Reads another system's appointments from iCalendar (RFC 5545): one for each VEVENT with UID,
 * DTSTART and DTEND or DURATION. The chart number is a word of the summary or the description. A
 * rule of recurrence is not followed; such a row is parked, single occurrences are taken.
 */
final class OutsideCalendar {
  private static final DateTimeFormatter LOCAL = DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss");

  private OutsideCalendar() {}

  /** A property: its value and the zone it names, if any. */
  private record Property(String value, String zone) {}

  /** Whether the bytes look like iCalendar. */
  static boolean is(String text) {
    return text.stripLeading().toUpperCase(Locale.ROOT).startsWith("BEGIN:VCALENDAR");
  }

  static List<OutsideRow> read(String text, ZoneId zone) {
    List<OutsideRow> rows = new ArrayList<>();
    Map<String, Property> event = null;
    int inner = 0;
    for (String line : unfolded(text)) {
      String upper = line.toUpperCase(Locale.ROOT);
      if (upper.equals("BEGIN:VEVENT")) {
        event = new HashMap<>();
      } else if (event != null && upper.startsWith("BEGIN:")) {
        inner++;
      } else if (event != null && inner > 0) {
        inner -= upper.startsWith("END:") ? 1 : 0;
      } else if (event != null && upper.equals("END:VEVENT")) {
        rows.add(row(event, zone, rows.size() + 1));
        event = null;
      } else if (event != null) {
        property(line, event);
      }
    }
    return rows;
  }

  /** A line goes on where the next one begins with a blank (section 3.1). */
  private static List<String> unfolded(String text) {
    List<String> lines = new ArrayList<>();
    for (String line : text.split("\r?\n", -1)) {
      if (!line.isEmpty()
          && (line.charAt(0) == ' ' || line.charAt(0) == '\t')
          && !lines.isEmpty()) {
        lines.set(lines.size() - 1, lines.get(lines.size() - 1) + line.substring(1));
      } else if (!line.isBlank()) {
        lines.add(line);
      }
    }
    return lines;
  }

  private static void property(String line, Map<String, Property> event) {
    boolean quoted = false;
    int colon = -1;
    for (int i = 0; i < line.length() && colon < 0; i++) {
      quoted ^= line.charAt(i) == '"';
      colon = line.charAt(i) == ':' && !quoted ? i : -1;
    }
    if (colon < 0) {
      return;
    }
    String[] head = line.substring(0, colon).split(";", -1);
    String zone = null;
    for (String parameter : head) {
      if (parameter.toUpperCase(Locale.ROOT).startsWith("TZID=")) {
        zone = parameter.substring(5).replace("\"", "");
      }
    }
    event.putIfAbsent(
        head[0].toUpperCase(Locale.ROOT), new Property(line.substring(colon + 1), zone));
  }

  private static OutsideRow row(Map<String, Property> event, ZoneId zone, int number) {
    String chart = (text(event, "SUMMARY") + " " + text(event, "DESCRIPTION")).strip();
    if (chart.length() > 200) {
      chart = chart.substring(0, 200);
    }
    String uid = text(event, "UID");
    if (uid.isEmpty()) {
      return OutsideRow.unreadable(
          "event " + number, chart, "Event " + number + " of the file has no UID.");
    }
    String occurrence = text(event, "RECURRENCE-ID");
    String key = occurrence.isEmpty() ? uid : uid + "/" + occurrence;
    if (event.containsKey("RRULE")) {
      return OutsideRow.unreadable(
          key, chart, "It repeats by a rule. Let the other system export single appointments.");
    }
    try {
      Instant start = instant(event.get("DTSTART"), zone);
      Instant end =
          event.containsKey("DTEND")
              ? instant(event.get("DTEND"), zone)
              : start.plus(Duration.parse(text(event, "DURATION")));
      String room = text(event, "LOCATION");
      return new OutsideRow(
          key,
          chart,
          start,
          (int) Duration.between(start, end).toMinutes(),
          null,
          room.isEmpty() ? null : room,
          null,
          text(event, "STATUS").equalsIgnoreCase("CANCELLED"),
          null);
    } catch (DateTimeException | NullPointerException unreadable) {
      return OutsideRow.unreadable(key, chart, "Its beginning or end cannot be read.");
    }
  }

  /** In UTC, in the zone named, or where the location is (section 3.3.5). */
  private static Instant instant(Property property, ZoneId zone) {
    String value = property.value().strip();
    if (value.endsWith("Z")) {
      return LocalDateTime.parse(value.substring(0, value.length() - 1), LOCAL)
          .toInstant(ZoneOffset.UTC);
    }
    ZoneId at = property.zone() == null ? zone : ZoneId.of(property.zone());
    return LocalDateTime.parse(value, LOCAL).atZone(at).toInstant();
  }

  /** Backslashes undone (section 3.3.11). */
  private static String text(Map<String, Property> event, String name) {
    Property property = event.get(name);
    return property == null
        ? ""
        : property.value().replaceAll("\\\\[nN]", " ").replaceAll("\\\\([\\\\;,])", "$1").strip();
  }
}
