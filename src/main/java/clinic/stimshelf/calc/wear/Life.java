package clinic.stimshelf.calc.wear;

import clinic.stimshelf.calc.Check;

/**
 * One observed life, or several alike.
 *
 * @param time how long it was seen: days away, sessions used; 0 to 100 000, whole or not
 * @param ended whether it ended then (returned, worn); otherwise it is known only to have lasted at
 *     least that long (right-censored)
 * @param count how many alike, 1 to 1 000 000
 */
public record Life(double time, boolean ended, int count) {

  /** Longest time that is taken. */
  public static final double LONGEST = 100_000;

  public Life {
    Check.within("time", time, 0, LONGEST);
    Check.within("count", count, 1, 1_000_000);
  }

  /** A life that ended at the time. */
  public static Life ended(double time) {
    return new Life(time, true, 1);
  }

  /** A life that was last seen going on at the time. */
  public static Life goingOn(double time) {
    return new Life(time, false, 1);
  }
}
