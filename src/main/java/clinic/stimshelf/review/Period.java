package clinic.stimshelf.review;

import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Refusal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.time.temporal.IsoFields;
import java.time.temporal.TemporalAdjusters;

/**
 * Days that are looked back on, both ends included.
 *
 * @param from first day
 * @param to last day
 */
public record Period(LocalDate from, LocalDate to) {
  /** Three years: what is longer says nothing of what to change. */
  static final int MOST_DAYS = 1_100;

  private static final int MONTHS_OF_A_QUARTER = 3;

  /** No clinic of this kind is older, and no plan reaches further. */
  private static final LocalDate EARLIEST = LocalDate.of(1990, 1, 1);

  private static final LocalDate LATEST = LocalDate.of(2199, 12, 31);

  /**
   * @throws Refusal if it ends before it begins, is too long, or lies in another age
   */
  public Period {
    refuseOtherAges("from", from);
    refuseOtherAges("to", to);
    if (from.isAfter(to)) {
      throw new Refusal(
          "to",
          "The last day lies before the first.",
          "Choose a last day of " + from + " or later.");
    }
    if (ChronoUnit.DAYS.between(from, to) >= MOST_DAYS) {
      throw new Refusal(
          "from", "That is more than three years.", "Choose a shorter stretch of days.");
    }
  }

  private static void refuseOtherAges(String field, LocalDate day) {
    if (day.isBefore(EARLIEST) || day.isAfter(LATEST)) {
      throw new Refusal(
          field,
          "The clinic has no days before 1990 or after 2199.",
          "Correct the year of this day.");
    }
  }

  /** The last quarter of the year that is over. */
  static Period lastQuarter(LocalDate today) {
    LocalDate first = today.with(IsoFields.DAY_OF_QUARTER, 1).minusMonths(MONTHS_OF_A_QUARTER);
    return new Period(first, first.plusMonths(MONTHS_OF_A_QUARTER).minusDays(1));
  }

  static Period lastMonth(LocalDate today) {
    LocalDate first = today.with(TemporalAdjusters.firstDayOfMonth()).minusMonths(1);
    return new Period(first, first.plusMonths(1).minusDays(1));
  }

  /** From New Year to today. */
  static Period thisYear(LocalDate today) {
    return new Period(today.with(TemporalAdjusters.firstDayOfYear()), today);
  }

  /** As long as this one, directly before it: whole months before whole months. */
  Period before() {
    LocalDate end = from.minusDays(1);
    boolean wholeMonths = from.getDayOfMonth() == 1 && to.plusDays(1).getDayOfMonth() == 1;
    LocalDate start =
        wholeMonths
            ? from.minusMonths(ChronoUnit.MONTHS.between(from, to.plusDays(1)))
            : end.minusDays(ChronoUnit.DAYS.between(from, to));
    return new Period(start, end);
  }

  /** The same days a year earlier. */
  Period yearAgo() {
    return new Period(from.minusYears(1), to.plusDays(1).minusYears(1).minusDays(1));
  }

  /** 01/01/2026 to 03/31/2026. */
  public String words() {
    return Days.full(from) + " to " + Days.full(to);
  }
}
