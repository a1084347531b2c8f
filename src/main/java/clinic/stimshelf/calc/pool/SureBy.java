package clinic.stimshelf.calc.pool;

import clinic.stimshelf.calc.Check;
import java.util.OptionalInt;
import java.util.function.IntPredicate;

/**
 * By which day a request surely gets a unit: the first on which the chance that one is free, after
 * those ahead and after turnaround, reaches the level.
 *
 * @param day days from today; empty if no day within the horizon is sure enough
 * @param chance on that day, or at the horizon where there is none
 * @param reason why there is no day; {@link Reason#FOUND} where there is one
 */
public record SureBy(OptionalInt day, double chance, Reason reason) {

  /** Days that are looked at. */
  public static final int HORIZON = 180;

  /** As many are looked at where the unit is wanted only towards the end of them, or later. */
  private static final int AFTER = 30;

  /** Why there is no day. */
  public enum Reason {
    /** There is a day. */
    FOUND,
    /** Even if every unit came back there would be more requests ahead than units. */
    TOO_FEW_UNITS,
    /** Units are enough, but too unlikely to be back within the horizon. */
    TOO_UNSURE
  }

  /**
   * From today on, any day of the week.
   *
   * @param level strictly between 0 and 1
   */
  public static SureBy of(Standing standing, double level) {
    return of(standing, level, 0, day -> true);
  }

  /**
   * From the day on which the unit is wanted, on days that count.
   *
   * @param level strictly between 0 and 1
   * @param from days from today, 0 to 10 000
   * @param counts whether the day so many days from today counts, for example because it is open
   */
  public static SureBy of(Standing standing, double level, int from, IntPredicate counts) {
    Check.insideUnit("level", level);
    Check.within("from", from, 0, 10_000);
    int last = Math.max(HORIZON, from + AFTER);
    // One by one: newcomers may make a later day less sure than an earlier one.
    for (int day = from; day <= last; day++) {
      if (counts.test(day)) {
        double chance = standing.chanceOn(day);
        if (chance >= level) {
          return new SureBy(OptionalInt.of(day), chance, Reason.FOUND);
        }
      }
    }
    return new SureBy(
        OptionalInt.empty(),
        standing.chanceOn(last),
        standing.tooFewUnits() ? Reason.TOO_FEW_UNITS : Reason.TOO_UNSURE);
  }
}
