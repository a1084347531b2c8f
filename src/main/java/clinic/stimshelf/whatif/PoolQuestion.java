package clinic.stimshelf.whatif;

import clinic.stimshelf.calc.pool.Erlang;
import clinic.stimshelf.calc.pool.LendingPool;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Supplier;

/** How many units to own. */
final class PoolQuestion {
  static final String EXAMPLE =
      """
      {"requestsPerWeek": 3.5, "meanDaysAway": 38, "turnaroundDays": 2, "units": 24, \
      "turnedAwayTarget": 0.05}""";

  static final Bound UNITS = Bound.whole(0, 1_000);

  private PoolQuestion() {}

  /** Null where units are not above the load: the wait would grow without end. */
  record PoolAnswer(
      double offeredLoad,
      double turnedAway,
      Double mustWait,
      Double meanWaitDays,
      int unitsForTarget,
      List<PoolPoint> curve) {}

  /** What becomes of requests with so many units. */
  record PoolPoint(int units, double turnedAway, Double mustWait) {}

  static PoolAnswer answer(JsonNode body) {
    return Question.answer(body, PoolQuestion::ask, Map.of());
  }

  private static Supplier<PoolAnswer> ask(Fields in) {
    double requests = in.number("requestsPerWeek", Bound.AMOUNT);
    double away = in.number("meanDaysAway", Bound.SPAN);
    double turnaround = in.number("turnaroundDays", Bound.SPAN);
    int units = in.whole("units", UNITS);
    double target = in.number("turnedAwayTarget", Bound.SOME_SHARE);
    double load = requests / 7 * (away + turnaround);
    if (load > Erlang.LARGEST_LOAD) {
      in.wrong(
          "requestsPerWeek",
          "is too high for these days: "
              + Math.round(load)
              + " units would be in use on average, but at most "
              + Math.round(Erlang.LARGEST_LOAD)
              + " are computed.");
    }
    return () -> of(LendingPool.of(requests, away, turnaround, units, target));
  }

  private static PoolAnswer of(LendingPool pool) {
    return new PoolAnswer(
        pool.offeredLoad(),
        pool.turnedAway(),
        orNull(pool.mustWait()),
        orNull(pool.meanWaitDays()),
        pool.unitsForTarget(),
        pool.curve().stream()
            .map(
                point -> new PoolPoint(point.units(), point.turnedAway(), orNull(point.mustWait())))
            .toList());
  }

  static Double orNull(OptionalDouble figure) {
    return figure.isPresent() ? (Double) figure.getAsDouble() : null;
  }
}
