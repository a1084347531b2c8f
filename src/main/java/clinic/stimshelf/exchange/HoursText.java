package clinic.stimshelf.exchange;

import clinic.stimshelf.location.DayHours;
import java.time.DayOfWeek;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Opening hours as files and forms write them: {@code mon 08:00-12:00 13:00-17:00}. */
final class HoursText {
  private static final Pattern STRETCH = Pattern.compile("(\\d{1,2}:\\d{2})-(\\d{1,2}:\\d{2})");

  private HoursText() {}

  /** A weekday with its hours. */
  record WeekdayHours(DayOfWeek weekday, List<DayHours> stretches) {}

  /**
   * @throws IllegalArgumentException or a DateTimeException if it reads otherwise
   */
  static WeekdayHours weekday(String text) {
    String[] parts = text.strip().split("\\s+", 2);
    if (parts.length < 2) {
      throw new IllegalArgumentException(text);
    }
    return new WeekdayHours(byShortName(parts[0]), stretches(parts[1]));
  }

  /** One or several stretches of a day, parted by blanks. */
  static List<DayHours> stretches(String text) {
    List<DayHours> stretches = new ArrayList<>();
    for (String part : text.strip().split("\\s+")) {
      Matcher stretch = STRETCH.matcher(part);
      if (!stretch.matches()) {
        throw new IllegalArgumentException(part);
      }
      stretches.add(new DayHours(time(stretch.group(1)), time(stretch.group(2))));
    }
    return stretches;
  }

  static String write(DayOfWeek weekday, List<DayHours> stretches) {
    StringBuilder words = new StringBuilder(shortName(weekday));
    stretches.forEach(
        stretch ->
            words
                .append(' ')
                .append(Column.write(stretch.opens()))
                .append('-')
                .append(Column.write(stretch.closes())));
    return words.toString();
  }

  static String shortName(DayOfWeek weekday) {
    return weekday.name().substring(0, 3).toLowerCase(Locale.ROOT);
  }

  static DayOfWeek byShortName(String word) {
    for (DayOfWeek weekday : DayOfWeek.values()) {
      if (shortName(weekday).equals(word.toLowerCase(Locale.ROOT))) {
        return weekday;
      }
    }
    throw new IllegalArgumentException(word);
  }

  private static LocalTime time(String text) {
    return LocalTime.parse(text.length() == 4 ? "0" + text : text);
  }
}
