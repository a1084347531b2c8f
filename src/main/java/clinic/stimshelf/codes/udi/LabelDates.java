package clinic.stimshelf.codes.udi;

import java.time.LocalDate;
import java.time.Year;
import java.time.YearMonth;
import org.jspecify.annotations.Nullable;

/** Dates as labels write them. Every method answers null where no such day exists. */
final class LabelDates {

  private LabelDates() {}

  /**
   * The year that two digits mean, at most 49 years back and 50 ahead (GS1 General Specifications
   * §7.12). The HIBC standard names no rule of its own, so it serves both.
   */
  static int year(int twoDigits, int currentYear) {
    int distance = twoDigits - Math.floorMod(currentYear, 100);
    int century = currentYear - Math.floorMod(currentYear, 100);
    if (distance >= 51) {
      century -= 100;
    } else if (distance <= -50) {
      century += 100;
    }
    return century + twoDigits;
  }

  /** YYMMDD; day 00 means the last day of the month. */
  static @Nullable LocalDate yymmdd(String digits, int currentYear) {
    return isDigits(digits, 6)
        ? day(year(number(digits, 0, 2), currentYear), number(digits, 2, 4), number(digits, 4, 6))
        : null;
  }

  /** MMDDYY. */
  static @Nullable LocalDate mmddyy(String digits, int currentYear) {
    return isDigits(digits, 6)
        ? yymmdd(digits.substring(4) + digits.substring(0, 4), currentYear)
        : null;
  }

  /** MMYY: the last day of the month. */
  static @Nullable LocalDate mmyy(String digits, int currentYear) {
    return isDigits(digits, 4)
        ? day(year(number(digits, 2, 4), currentYear), number(digits, 0, 2), 0)
        : null;
  }

  /** YYYYMMDD. */
  static @Nullable LocalDate yyyymmdd(String digits) {
    return isDigits(digits, 8)
        ? day(number(digits, 0, 4), number(digits, 4, 6), number(digits, 6, 8))
        : null;
  }

  /** YYJJJ: the year and the day of the year. */
  static @Nullable LocalDate yyjjj(String digits, int currentYear) {
    return isDigits(digits, 5)
        ? dayOfYear(year(number(digits, 0, 2), currentYear), number(digits, 2, 5))
        : null;
  }

  /** cYYJJJ of ICCBBA: 014 is 2014, 9YY lies in the 1900s. */
  static @Nullable LocalDate cyyjjj(String digits) {
    if (!isDigits(digits, 6)) {
      return null;
    }
    int year = number(digits, 0, 3);
    return dayOfYear(year >= 900 ? 1000 + year : 2000 + year, number(digits, 3, 6));
  }

  static boolean isDigits(String text, int length) {
    return text.length() == length && text.chars().allMatch(c -> c >= '0' && c <= '9');
  }

  private static int number(String digits, int from, int to) {
    return Integer.parseInt(digits.substring(from, to));
  }

  private static @Nullable LocalDate day(int year, int month, int day) {
    if (month < 1 || month > 12) {
      return null;
    }
    YearMonth in = YearMonth.of(year, month);
    if (day == 0) {
      return in.atEndOfMonth();
    }
    return in.isValidDay(day) ? in.atDay(day) : null;
  }

  private static @Nullable LocalDate dayOfYear(int year, int day) {
    return day >= 1 && day <= Year.of(year).length() ? LocalDate.ofYearDay(year, day) : null;
  }
}
