package clinic.stimshelf.calc.pool;

import clinic.stimshelf.calc.Check;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * How many units to own: what becomes of requests by the number of units.
 *
 * <p>Rough by nature: home loans start in clusters after surgery days, and people who find no unit
 * may ask again. See {@link Erlang} for the assumptions.
 *
 * @param offeredLoad units that would be busy on average if there were always enough
 * @param turnedAway share of requests that find no unit, if they are then lost
 * @param mustWait share that must wait, if they wait in turn; empty where units are not above the
 *     load
 * @param meanWaitDays mean over all requests; empty where {@code mustWait} is
 * @param unitsForTarget fewest units that turn away no more than the target
 * @param curve every number of units from 0 to three above the larger of what is owned and the
 *     target
 */
public record LendingPool(
    double offeredLoad,
    double turnedAway,
    OptionalDouble mustWait,
    OptionalDouble meanWaitDays,
    int unitsForTarget,
    List<Point> curve) {

  private static final int MOST_UNITS = 1_000;
  private static final int BEYOND = 3;

  /** What becomes of requests with so many units; as the record's own components. */
  public record Point(int units, double turnedAway, OptionalDouble mustWait) {}

  public LendingPool {
    curve = List.copyOf(curve);
  }

  /**
   * @param requestsPerWeek 0 or more
   * @param meanDaysAway days from check-out to check-in, 0 to 100 000
   * @param turnaroundDays days from check-in to ready, 0 to 100 000
   * @param units owned, 0 to 1 000
   * @param turnedAwayTarget above 0, at most 1
   */
  public static LendingPool of(
      double requestsPerWeek,
      double meanDaysAway,
      double turnaroundDays,
      int units,
      double turnedAwayTarget) {
    Check.within("requestsPerWeek", requestsPerWeek, 0, 1e9);
    Check.within("meanDaysAway", meanDaysAway, 0, 100_000);
    Check.within("turnaroundDays", turnaroundDays, 0, 100_000);
    Check.within("units", units, 0, MOST_UNITS);
    double service = meanDaysAway + turnaroundDays;
    double load = requestsPerWeek / 7 * service;
    Erlang.checkLoad(load);
    int forTarget = Erlang.unitsFor(load, turnedAwayTarget);
    List<Point> curve = new ArrayList<>();
    double b = 1;
    for (int n = 0; n <= Math.max(units, forTarget) + BEYOND; n++) {
      b = n == 0 ? 1 : Erlang.next(b, n, load);
      curve.add(new Point(n, b, Erlang.mustWait(n, load, b)));
    }
    Point own = curve.get(units);
    OptionalDouble wait =
        own.mustWait().isPresent()
            ? OptionalDouble.of(own.mustWait().getAsDouble() * service / (units - load))
            : OptionalDouble.empty();
    return new LendingPool(load, own.turnedAway(), own.mustWait(), wait, forTarget, curve);
  }
}
