package clinic.stimshelf.web;

import io.quarkus.qute.TemplateExtension;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.format.ResolverStyle;
import java.util.Locale;

/** Days and times as people here read and write them. */
public final class Days {
  private static final DateTimeFormatter SHORT =
      DateTimeFormatter.ofPattern("EEE MMM d", Locale.US);
  private static final DateTimeFormatter FULL =
      DateTimeFormatter.ofPattern("MM/dd/yyyy", Locale.US);
  private static final DateTimeFormatter LONG =
      DateTimeFormatter.ofPattern("EEEE, MMMM d, yyyy", Locale.US);
  private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("h:mm a", Locale.US);
  private static final DateTimeFormatter TYPED =
      DateTimeFormatter.ofPattern("M/d/uuuu", Locale.US).withResolverStyle(ResolverStyle.STRICT);

  private Days() {}

  /** Reads 2026-03-14 or 3/14/2026. */
  public static LocalDate parse(String text) {
    return text.contains("/") ? LocalDate.parse(text, TYPED) : LocalDate.parse(text);
  }

  /** Wed Mar 4. */
  @TemplateExtension(matchName = "short")
  public static String shortly(LocalDate day) {
    return SHORT.format(day);
  }

  /** 03/04/2026. */
  @TemplateExtension(matchName = "full")
  public static String full(LocalDate day) {
    return FULL.format(day);
  }

  /** Wednesday, March 4, 2026. */
  @TemplateExtension(matchName = "long")
  public static String inWords(LocalDate day) {
    return LONG.format(day);
  }

  /** 2:30 PM. */
  @TemplateExtension(matchName = "clock")
  public static String clock(LocalTime time) {
    return CLOCK.format(time);
  }

  /** Wed Mar 4, 2:30 PM. */
  @TemplateExtension(matchName = "words")
  public static String words(ZonedDateTime time) {
    return SHORT.format(time) + ", " + CLOCK.format(time);
  }

  /** 03/04/2026, 2:30 PM at the given zone. */
  @TemplateExtension(matchName = "at")
  public static String at(Instant instant, ZoneId zone) {
    ZonedDateTime time = instant.atZone(zone);
    return FULL.format(time) + ", " + CLOCK.format(time);
  }
}
