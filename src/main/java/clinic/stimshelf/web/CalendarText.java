package clinic.stimshelf.web;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.HexFormat;
import java.util.List;
import java.util.UUID;

/**
 * Single events as iCalendar (RFC 5545, with NAME and REFRESH-INTERVAL of RFC 7986): times in UTC,
 * lines of at most 75 octets, no method, so that it is read as a feed and not as an invitation.
 */
public final class CalendarText {
  public static final String TYPE = "text/calendar;charset=UTF-8";

  private static final int LINE = 75;
  private static final int TAG_BYTES = 16;
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);

  private final StringBuilder text = new StringBuilder();

  private CalendarText() {}

  /**
   * An event.
   *
   * @param uid see {@link #uid}
   * @param sequence never sinks, and rises with every change of time, whose it is, or cancelling
   * @param changedAt when it changed last
   * @param startsAt {@code null} for a whole day
   * @param day the day of a whole-day event, else {@code null}
   * @param place {@code null} for none
   * @param words more about it, {@code null} for none
   */
  public record Event(
      String uid,
      int sequence,
      Instant changedAt,
      Instant startsAt,
      Instant endsAt,
      LocalDate day,
      String summary,
      String place,
      String words,
      boolean cancelled) {}

  /**
   * An identifier that stays for the life of a thing and tells nothing of it (RFC 7986, 5.3).
   *
   * @param kind of thing
   * @param id its number
   * @param made when it came to be, which never changes
   */
  public static String uid(String kind, Long id, Instant made) {
    byte[] digest = digest("stimshelf/" + kind + "/" + id + "/" + made.toEpochMilli());
    long high = 0;
    long low = 0;
    for (int i = 0; i < Long.BYTES; i++) {
      high = high << 8 | digest[i] & 0xff;
      low = low << 8 | digest[i + Long.BYTES] & 0xff;
    }
    // Version 8: made by a rule of our own (RFC 9562).
    return new UUID(high & ~0xf000L | 0x8000L, low & ~(3L << 62) | 2L << 62).toString();
  }

  /**
   * The whole calendar.
   *
   * @param name that people see
   */
  public static String of(String name, List<Event> events) {
    CalendarText out = new CalendarText();
    out.line("BEGIN:VCALENDAR");
    out.line("VERSION:2.0");
    out.line("PRODID:-//Stimshelf//Stimshelf 1//EN");
    out.line("CALSCALE:GREGORIAN");
    out.line("NAME:" + escaped(name));
    out.line("X-WR-CALNAME:" + escaped(name));
    out.line("REFRESH-INTERVAL;VALUE=DURATION:PT1H");
    out.line("X-PUBLISHED-TTL:PT1H");
    events.forEach(out::event);
    out.line("END:VCALENDAR");
    return out.text.toString();
  }

  private void event(Event event) {
    line("BEGIN:VEVENT");
    line("UID:" + event.uid());
    line("SEQUENCE:" + event.sequence());
    line("DTSTAMP:" + TIME.format(event.changedAt()));
    line("LAST-MODIFIED:" + TIME.format(event.changedAt()));
    if (event.day() != null) {
      line("DTSTART;VALUE=DATE:" + DateTimeFormatter.BASIC_ISO_DATE.format(event.day()));
      line("TRANSP:TRANSPARENT");
    } else {
      line("DTSTART:" + TIME.format(event.startsAt()));
      line("DTEND:" + TIME.format(event.endsAt()));
    }
    line("SUMMARY:" + escaped(event.summary()));
    if (event.place() != null) {
      line("LOCATION:" + escaped(event.place()));
    }
    if (event.words() != null) {
      line("DESCRIPTION:" + escaped(event.words()));
    }
    line("CLASS:PRIVATE");
    line("STATUS:" + (event.cancelled() ? "CANCELLED" : "CONFIRMED"));
    line("END:VEVENT");
  }

  /** For the header ETag: changes exactly when the text does. */
  public static String tag(String text) {
    return HexFormat.of().formatHex(digest(text), 0, TAG_BYTES);
  }

  private static byte[] digest(String text) {
    try {
      return MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("SHA-256 is part of every Java", e);
    }
  }

  /**
   * A value of type TEXT (RFC 5545, 3.3.11); control characters, which it cannot hold, are left
   * out.
   */
  static String escaped(String text) {
    return text.replace("\\", "\\\\")
        .replace(";", "\\;")
        .replace(",", "\\,")
        .replace("\r\n", "\n")
        .replace('\r', '\n')
        .replace("\n", "\\n")
        .replaceAll("[\\x00-\\x08\\x0B\\x0C\\x0E-\\x1F\\x7F]", "");
  }

  /** Folds at 75 octets without tearing a character (RFC 5545, 3.1). */
  private void line(String content) {
    int octets = 0;
    for (int at = 0; at < content.length(); ) {
      int point = content.codePointAt(at);
      int size = point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
      if (octets + size > LINE) {
        text.append("\r\n ");
        octets = 1;
      }
      text.appendCodePoint(point);
      octets += size;
      at += Character.charCount(point);
    }
    text.append("\r\n");
  }
}
