package clinic.stimshelf.calc.pool;

import clinic.stimshelf.calc.Check;
import clinic.stimshelf.calc.wear.ProductLimit;

/** A unit that is not free now: how sure it is to be ready by a day. */
@FunctionalInterface
public interface Returning {

  /**
   * The chance that the unit is ready by the end of the day so many days from today; never sinks
   * with the day.
   *
   * @param day 0 is today
   */
  double readyBy(int day);

  /** A unit that is certain to be ready on a day, for example one that is being wiped. */
  static Returning surelyOn(int readyDay) {
    Check.within("readyDay", readyDay, 0, 100_000);
    return day -> day >= readyDay ? 1 : 0;
  }

  /** A unit that cannot be counted on, for example one that is missing. */
  static Returning never() {
    return day -> 0;
  }

  /**
   * A unit at a home: given that it has been away for so long, the chance that it comes back early
   * enough to be made ready, from how long units of its kind were away in the past. Longer than any
   * of those came back, nothing is known and it is not counted on.
   *
   * @param timeAway of units of its kind
   * @param daysAway so far, 0 or more
   * @param turnaroundDays from check-in to ready, 0 or more
   */
  static Returning away(ProductLimit timeAway, double daysAway, double turnaroundDays) {
    Check.notNegative("daysAway", daysAway);
    Check.notNegative("turnaroundDays", turnaroundDays);
    return day ->
        day < turnaroundDays ? 0 : timeAway.endsWithin(daysAway, day - turnaroundDays).orElse(0);
  }
}
