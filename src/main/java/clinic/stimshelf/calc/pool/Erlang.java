package clinic.stimshelf.calc.pool;

import clinic.stimshelf.calc.Check;
import java.util.OptionalDouble;

/**
 * Erlang's formulas for a pool of like units: requests come at random (Poisson), each takes a unit
 * for a while; the load a is requests per time x mean time per request, in the same unit.
 *
 * <p>Erlang B by the recursion {@code B(0) = 1, B(n) = a B(n−1)/(n + a B(n−1))}, whose terms are
 * all positive, so that it is exact to rounding for any n and a. It depends on the times only by
 * their mean (Sevastyanov 1957, <i>Theory Probab Appl</i> 2:106-116), needs requests that come
 * singly and are lost when turned away. Erlang C, {@code n B/(n − a (1 − B))}, has requests wait in
 * turn and needs exponential times; it exists for n above a only.
 */
public final class Erlang {

  /** Largest load for which a curve is computed. */
  public static final double LARGEST_LOAD = 5_000;

  private Erlang() {}

  /**
   * The share of requests that find no unit.
   *
   * @param units 0 or more
   * @param load 0 to 5 000
   */
  public static double turnedAway(int units, double load) {
    Check.within("units", units, 0, 1_000_000);
    checkLoad(load);
    double b = 1;
    for (int n = 1; n <= units; n++) {
      b = next(b, n, load);
    }
    return b;
  }

  /**
   * The share of requests that must wait.
   *
   * @param units 0 or more
   * @param load 0 to 5 000
   * @return empty where units are not above the load: the queue would grow without end
   */
  public static OptionalDouble mustWait(int units, double load) {
    return mustWait(units, load, turnedAway(units, load));
  }

  static OptionalDouble mustWait(int units, double load, double turnedAway) {
    return units > load
        ? OptionalDouble.of(units * turnedAway / ((units - load) + load * turnedAway))
        : OptionalDouble.empty();
  }

  /**
   * The fewest units that turn away no more than the target.
   *
   * @param load 0 to 5 000
   * @param target above 0, at most 1
   */
  public static int unitsFor(double load, double target) {
    checkLoad(load);
    Check.positive("turnedAwayTarget", target);
    Check.within("turnedAwayTarget", target, 0, 1);
    int n = 0;
    for (double b = 1; b > target; ) {
      b = next(b, ++n, load);
    }
    return n;
  }

  static double next(double b, int n, double load) {
    return load * b / (n + load * b);
  }

  static void checkLoad(double load) {
    Check.within("offeredLoad", load, 0, LARGEST_LOAD);
  }
}
