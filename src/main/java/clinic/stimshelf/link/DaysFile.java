package clinic.stimshelf.link;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.UUID;

/** Whole days as an iCalendar file (RFC 5545). It names no treatment: calendars are shared. */
final class DaysFile {
  private static final int LONGEST_LINE = 75;
  private static final DateTimeFormatter DAY = DateTimeFormatter.BASIC_ISO_DATE;
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);

  private DaysFile() {}

  /** A day with what it is for. */
  record Entry(LocalDate day, String words, String place) {}

  /**
   * The file.
   *
   * @param seed makes the entries' identifiers: the same seed gives the same ones
   */
  static String of(List<Entry> entries, String seed, Instant now) {
    StringBuilder file = new StringBuilder();
    line(file, "BEGIN:VCALENDAR");
    line(file, "VERSION:2.0");
    line(file, "PRODID:-//Stimshelf//Patient's days//EN");
    for (Entry entry : entries) {
      line(file, "BEGIN:VEVENT");
      line(
          file,
          "UID:"
              + UUID.nameUUIDFromBytes(
                  (seed + entry.day() + entry.words()).getBytes(StandardCharsets.UTF_8)));
      line(file, "DTSTAMP:" + STAMP.format(now));
      line(file, "DTSTART;VALUE=DATE:" + DAY.format(entry.day()));
      line(file, "SUMMARY:" + escaped(entry.words()));
      if (entry.place() != null) {
        line(file, "LOCATION:" + escaped(entry.place()));
      }
      line(file, "END:VEVENT");
    }
    line(file, "END:VCALENDAR");
    return file.toString();
  }

  static String escaped(String text) {
    return text.replace("\\", "\\\\")
        .replace(";", "\\;")
        .replace(",", "\\,")
        .replaceAll("\\R", "\\\\n");
  }

  /** At most 75 octets a line (RFC 5545, 3.1), and no character cut in two. */
  static void line(StringBuilder file, String text) {
    int octets = 0;
    for (int i = 0; i < text.length(); ) {
      int point = text.codePointAt(i);
      int size = new String(Character.toChars(point)).getBytes(StandardCharsets.UTF_8).length;
      if (octets + size > LONGEST_LINE) {
        file.append("\r\n ");
        octets = 1;
      }
      file.appendCodePoint(point);
      octets += size;
      i += Character.charCount(point);
    }
    file.append("\r\n");
  }
}
