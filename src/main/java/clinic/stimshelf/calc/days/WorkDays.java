package clinic.stimshelf.calc.days;

import clinic.stimshelf.calc.BadInput;
import java.time.DayOfWeek;
import java.time.LocalDate;

/**
 * Monday to Friday, as report clocks count them. Public holidays are counted like any other day: a
 * day that is left out would move the last day later, and a reminder should rather come early.
 */
public final class WorkDays {

  private WorkDays() {}

  /**
   * The last of {@code days} work days after {@code from}; {@code from} itself is not counted.
   *
   * @param days from 0 (then {@code from} itself) to 1000
   * @throws BadInput if {@code days} is outside of that
   */
  public static LocalDate after(LocalDate from, int days) {
    if (days < 0 || days > 1000) {
      throw new BadInput("days", "Work days must be from 0 to 1000, not " + days + ".");
    }
    LocalDate day = from;
    for (int left = days; left > 0; ) {
      day = day.plusDays(1);
      if (isWorkDay(day)) {
        left--;
      }
    }
    return day;
  }

  /** How many work days lie after {@code from}, up to and with {@code to}; 0 if none. */
  public static int between(LocalDate from, LocalDate to) {
    int days = 0;
    for (LocalDate day = from.plusDays(1); !day.isAfter(to); day = day.plusDays(1)) {
      if (isWorkDay(day)) {
        days++;
      }
    }
    return days;
  }

  private static boolean isWorkDay(LocalDate day) {
    return day.getDayOfWeek() != DayOfWeek.SATURDAY && day.getDayOfWeek() != DayOfWeek.SUNDAY;
  }
}
