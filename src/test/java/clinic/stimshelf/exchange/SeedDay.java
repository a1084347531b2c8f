package clinic.stimshelf.exchange;

import java.time.LocalDate;

/**
 * Days of the demo, counted from the Monday of the week in which it is loaded; day 0 is that
 * Monday, day -1 the Sunday before.
 */
final class SeedDay {
  /** A Monday that stands for day 0 where the arithmetic of sessions needs a calendar. */
  private static final LocalDate MONDAY = LocalDate.of(2024, 1, 1);

  private SeedDay() {}

  /** As files write it: w-3.2. */
  static String write(int day) {
    return "w%+d.%d".formatted(Math.floorDiv(day, 7), Math.floorMod(day, 7) + 1);
  }

  /** With a time given in minutes after midnight: w-3.2T09:30. */
  static String write(int day, int minute) {
    return "%sT%02d:%02d".formatted(write(day), minute / 60, minute % 60);
  }

  static LocalDate date(int day) {
    return MONDAY.plusDays(day);
  }

  static int day(LocalDate date) {
    return (int) (date.toEpochDay() - MONDAY.toEpochDay());
  }

  /** The day itself if it is a weekday, else the Monday after. */
  static int weekday(int day) {
    int weekday = Math.floorMod(day, 7);
    return weekday < 5 ? day : day + 7 - weekday;
  }

  /** The last weekday before that day. */
  static int weekdayBefore(int day) {
    int before = day - 1;
    while (Math.floorMod(before, 7) > 4) {
      before--;
    }
    return before;
  }
}
