package clinic.stimshelf.loans;

import clinic.stimshelf.calc.pool.Returning;
import clinic.stimshelf.calc.wear.Life;
import clinic.stimshelf.calc.wear.ProductLimit;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * How long past their due day units come home, by kind, with the loans that still run counted as
 * censored. For a loan that was not extended yet the days count from the first due day, so that an
 * extension counts as time away too, and only loans are looked at that were not extended by then
 * either; for one that was extended they count from the due day as it stood last.
 */
final class TimeAway {
  /** Units that come home earlier than this before their due day count as so early. */
  static final int EARLIEST = 60;

  /** From so many returns on a kind speaks for itself; below, all kinds speak together. */
  static final int ENOUGH = 10;

  /** Where next to nothing came back yet. Common practice, no source. */
  private static final List<Life> WITHOUT_HISTORY =
      List.of(
          new Life(EARLIEST, true, 7), new Life(EARLIEST + 3, true, 2), Life.ended(EARLIEST + 14));

  /**
   * What is asked of the past.
   *
   * @param extended whether the loan was
   * @param now days since it was {@link #EARLIEST} days before its due day
   */
  private record Asked(String kind, boolean extended, long now) {}

  private final List<Away> loans;
  private final LocalDate today;
  private final Map<Asked, ProductLimit> curves = new HashMap<>();

  private TimeAway(List<Away> loans, LocalDate today) {
    this.loans = loans;
    this.today = today;
  }

  static TimeAway of(Collection<Away> loans, LocalDate today) {
    return new TimeAway(List.copyOf(loans), today);
  }

  /**
   * A unit at a home that has not come back by now.
   *
   * @param due its due day as it stands
   * @param extended whether that is no longer the first one
   * @param turnaroundDays from check in to ready
   */
  Returning home(String kind, LocalDate due, boolean extended, int turnaroundDays) {
    long now = EARLIEST + ChronoUnit.DAYS.between(due, today);
    ProductLimit curve =
        curves.computeIfAbsent(new Asked(kind, extended, now), none -> curve(kind, extended, now));
    // It was not back yesterday evening; of those that come today half have come by now.
    double yesterday = curve.surviving(now - 1.0);
    double out = (yesterday + curve.surviving(now)) / 2;
    return day -> {
      long then = now + day - turnaroundDays;
      return day < turnaroundDays || !(out > 0) ? 0 : Math.max(0, 1 - curve.surviving(then) / out);
    };
  }

  private ProductLimit curve(String kind, boolean extended, long now) {
    List<Life> lives = lives(kind, extended, now);
    if (ended(lives) < ENOUGH) {
      lives = lives(null, extended, now);
    }
    if (ended(lives) < ENOUGH) {
      lives.addAll(WITHOUT_HISTORY);
    }
    return ProductLimit.of(lives);
  }

  /**
   * @param kind {@code null} for all
   */
  private List<Life> lives(String kind, boolean extended, long now) {
    List<Life> lives = new ArrayList<>();
    for (Away loan : loans) {
      if ((kind == null || Objects.equals(kind, loan.kind()))
          && (extended || !loan.extendedBefore(loan.firstDue().plusDays(now - EARLIEST)))) {
        LocalDate due = extended ? loan.due() : loan.firstDue();
        LocalDate until = loan.back() == null ? today : loan.back();
        long days = EARLIEST + ChronoUnit.DAYS.between(due, until);
        lives.add(new Life(Math.min(Life.LONGEST, Math.max(0, days)), loan.back() != null, 1));
      }
    }
    return lives;
  }

  private static long ended(List<Life> lives) {
    return lives.stream().filter(Life::ended).count();
  }
}
