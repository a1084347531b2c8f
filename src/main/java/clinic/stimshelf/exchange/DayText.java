package clinic.stimshelf.exchange;

import clinic.stimshelf.web.Days;
import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.temporal.TemporalAdjusters;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Days and times as files write them: 2026-03-14 or 3/14/2026, with a time 2026-03-14T14:30,
 * "2026-03-14 14:30" or "3/14/2026 2:30 PM", with or without an offset from UTC.
 *
 * <p>The demo alone may write {@code w-3.2}: three weeks before this week's Monday, the second day
 * (Tuesday), with a time {@code w-3.2T09:30}. Where the location is closed then, the next day
 * counts on which it is open at that time.
 */
final class DayText {
  static final String DAY = "a day such as 2026-03-14 or 3/14/2026";
  static final String MOMENT = "a day and time such as 2026-03-14T14:30 or 3/14/2026 2:30 PM";

  private static final Pattern RELATIVE =
      Pattern.compile("w([+-]\\d{1,4})\\.([1-7])(?:T(\\d{2}:\\d{2}))?");
  private static final DateTimeFormatter TWELVE_HOURS =
      new DateTimeFormatterBuilder()
          .parseCaseInsensitive()
          .appendPattern("h:mm[ ]a")
          .toFormatter(Locale.US);
  private static final DateTimeFormatter TWENTY_FOUR_HOURS =
      DateTimeFormatter.ofPattern("H:mm[:ss]");
  private static final int LONGEST_CLOSURE = 60;
  private static final LocalDate FIRST = LocalDate.of(1900, 1, 1);
  private static final LocalDate LAST = LocalDate.of(2200, 1, 1);

  private final Instant now;
  private final LocalDate monday;
  private final boolean relativeAllowed;

  /**
   * @param now when the file is read
   * @param zone whose week counts for relative days
   * @param relativeAllowed whether this is the demo
   */
  DayText(Instant now, ZoneId zone, boolean relativeAllowed) {
    this.now = now;
    this.monday =
        now.atZone(zone).toLocalDate().with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
    this.relativeAllowed = relativeAllowed;
  }

  Instant now() {
    return now;
  }

  static boolean isRelative(String text) {
    return text.startsWith("w");
  }

  LocalDate day(String text) {
    LocalDate day = relative(text) == null ? Days.parse(text) : relative(text).toLocalDate();
    if (day.isBefore(FIRST) || !day.isBefore(LAST)) {
      throw new DateTimeException("out of range");
    }
    return day;
  }

  /** The day; a relative one is moved to the next on which the location is open. */
  LocalDate openDay(String text, OpenHours hours) {
    LocalDate day = day(text);
    if (!isRelative(text) || hours == null) {
      return day;
    }
    for (int i = 0; i < LONGEST_CLOSURE && !hours.isOpen(day); i++) {
      day = day.plusDays(1);
    }
    return day;
  }

  /**
   * The instant at the location; a relative one is moved to the next day on which it is open at
   * that time.
   *
   * @param hours {@code null} if the day stays as it is
   */
  Instant moment(String text, OpenHours hours, ZoneId zone) {
    LocalDateTime relative = relative(text);
    if (relative == null) {
      return absolute(text, zone);
    }
    LocalDateTime at = relative;
    if (hours != null) {
      for (int i = 0; i < LONGEST_CLOSURE && !hours.isOpen(at); i++) {
        at = at.plusDays(1);
      }
      if (!hours.isOpen(at)) {
        throw new Column.NotAllowed("The location is never open at " + at.toLocalTime() + ".");
      }
    }
    return at.atZone(zone).toInstant();
  }

  private Instant absolute(String text, ZoneId zone) {
    int gap = Math.max(text.indexOf('T'), text.indexOf(' '));
    LocalDate day = day(gap < 0 ? text : text.substring(0, gap));
    String rest = gap < 0 ? "00:00" : text.substring(gap + 1).strip();
    if (rest.matches(".*(Z|[+-]\\d{2}:\\d{2})")) {
      return OffsetDateTime.parse(day + "T" + rest).toInstant();
    }
    return day.atTime(time(rest)).atZone(zone).toInstant();
  }

  static LocalTime time(String text) {
    return text.toUpperCase(Locale.ROOT).endsWith("M")
        ? LocalTime.parse(text, TWELVE_HOURS)
        : LocalTime.parse(text, TWENTY_FOUR_HOURS);
  }

  private LocalDateTime relative(String text) {
    if (!isRelative(text)) {
      return null;
    }
    Matcher parts = RELATIVE.matcher(text);
    if (!relativeAllowed || !parts.matches()) {
      throw new DateTimeException(text);
    }
    LocalDate day =
        monday
            .plusWeeks(Integer.parseInt(parts.group(1)))
            .plusDays(Integer.parseInt(parts.group(2)) - 1L);
    return day.atTime(
        parts.group(3) == null ? LocalTime.MIDNIGHT : LocalTime.parse(parts.group(3)));
  }
}
