package clinic.stimshelf.program;

import java.time.DayOfWeek;
import java.util.Locale;

/** Weekdays as scripts and forms spell them. */
final class Weekdays {

  private Weekdays() {}

  /**
   * Reads monday, Mon or MO.
   *
   * @throws IllegalArgumentException if it is no weekday
   */
  static DayOfWeek of(String word) {
    String wanted = word.strip().toUpperCase(Locale.ROOT);
    for (DayOfWeek day : DayOfWeek.values()) {
      if (wanted.length() >= 2 && day.name().startsWith(wanted)) {
        return day;
      }
    }
    throw new IllegalArgumentException("“" + word + "” is no weekday, such as monday.");
  }
}
