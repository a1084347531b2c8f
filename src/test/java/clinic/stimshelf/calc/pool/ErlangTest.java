package clinic.stimshelf.calc.pool;

import static clinic.stimshelf.calc.Checks.asPrinted;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Checks;
import clinic.stimshelf.calc.Checks.Row;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class ErlangTest {

  static Stream<Row> b() {
    return Checks.rows("01_erlang_b_grid.csv").stream();
  }

  static Stream<Row> c() {
    return Checks.rows("01_erlang_c_grid.csv").stream();
  }

  static Stream<Row> loads() {
    return Checks.rows("01_erlang_b_max_load.csv").stream();
  }

  static Stream<Row> servers() {
    return Checks.rows("01_erlang_b_min_servers.csv").stream();
  }

  static Stream<Row> insensitive() {
    return Checks.rows("01_insensitivity_ctmc.csv").stream();
  }

  static Stream<Arguments> printed() {
    return Stream.concat(
        Checks.rows("01_erlang_b_printed_2pct.csv").stream()
            .map(row -> printed(row, "printed_A_3dec")),
        Checks.rows("01_erlang_b_printed_table.csv").stream()
            .map(row -> printed(row, "printed_A")));
  }

  private static Arguments printed(Row row, String column) {
    return Arguments.of(row.whole("servers_N"), row.text(column), row.number("target_blocking"));
  }

  static Stream<Row> queues() {
    return Checks.rows("01_queue_examples.csv").stream()
        .filter(row -> !row.text("quantity").equals("P0"));
  }

  @ParameterizedTest
  @MethodSource("b")
  void turnedAway(Row row) {
    assertThat(Erlang.turnedAway(row.whole("servers_N"), row.number("offered_load_A_erlang")))
        .isCloseTo(row.number("erlang_B_blocking"), asPrinted(row.text("erlang_B_blocking")));
  }

  @ParameterizedTest
  @MethodSource("c")
  void mustWait(Row row) {
    int units = row.whole("servers_N");
    double load = row.number("offered_load_A_erlang");
    LendingPool pool = LendingPool.of(7 * load, 1, 0, units, 0.01);
    assertThat(pool.mustWait().getAsDouble())
        .isCloseTo(row.number("erlang_C_prob_wait"), asPrinted(row.text("erlang_C_prob_wait")));
    String wait = "mean_wait_all_Wq_in_service_times";
    // 1e-13 relative: the load comes back from requests a week with one rounding.
    assertThat(pool.meanWaitDays().getAsDouble())
        .isCloseTo(
            row.number(wait), within(asPrinted(row.text(wait)).value + 1e-13 * row.number(wait)));
  }

  /** The largest load at a blocking target: blocking at that load is the target. */
  @ParameterizedTest
  @MethodSource("loads")
  void largestLoads(Row row) {
    double target = row.number("target_blocking");
    int units = row.whole("servers_N");
    double load = row.number("max_offered_load_A");
    // 1e-11: thirteen digits of the load, times the slope of the curve.
    assertThat(Erlang.turnedAway(units, load)).isCloseTo(target, within(1e-11));
    assertThat(Erlang.unitsFor(load * (1 - 1e-9), target)).isEqualTo(units);
    assertThat(Erlang.unitsFor(load * (1 + 1e-9), target)).isEqualTo(units + 1);
  }

  /** Printed loads hold the target within half a unit of their last digit. */
  @ParameterizedTest
  @MethodSource("printed")
  void printedTables(int units, String printedLoad, double target) {
    double load = Double.parseDouble(printedLoad);
    double half = asPrinted(printedLoad).value;
    assertThat(Erlang.turnedAway(units, Math.max(0, load - half))).isLessThanOrEqualTo(target);
    assertThat(Erlang.turnedAway(units, load + half)).isGreaterThanOrEqualTo(target);
  }

  @ParameterizedTest
  @MethodSource("servers")
  void fewestUnitsForATarget(Row row) {
    double load = row.number("offered_load_A");
    int units = row.whole("min_servers_N");
    assertThat(Erlang.unitsFor(load, row.number("target_blocking"))).isEqualTo(units);
    assertThat(Erlang.turnedAway(units, load))
        .isCloseTo(row.number("blocking_at_N"), asPrinted(row.text("blocking_at_N")));
    assertThat(Erlang.turnedAway(units - 1, load))
        .isCloseTo(
            row.number("blocking_at_N_minus_1"), asPrinted(row.text("blocking_at_N_minus_1")));
  }

  /**
   * Blocking of hyperexponential and Erlang-2 times, solved as Markov chains: only means matter.
   */
  @ParameterizedTest
  @MethodSource("insensitive")
  void onlyTheMeanTimeMatters(Row row) {
    double load = row.number("arrival_rate") * row.number("mean_service");
    assertThat(Erlang.turnedAway(row.whole("servers_c"), load))
        .isCloseTo(row.number("blocking_ctmc"), within(1e-12));
  }

  @ParameterizedTest
  @MethodSource("queues")
  void textbookQueues(Row row) {
    Map<String, double[]> inputs =
        Map.of(
            "Q1", new double[] {300, 182.5, 3},
            "Q2", new double[] {20, 30, 2},
            "Q3", new double[] {2, 3, 2});
    double[] in = inputs.get(row.text("id"));
    if (in == null) {
      throw new IllegalStateException(row.text("id"));
    }
    double rate = in[0];
    double service = 1 / in[1];
    LendingPool pool = LendingPool.of(7 * rate, service, 0, (int) in[2], 0.01);
    double wait = pool.meanWaitDays().getAsDouble();
    double actual =
        switch (row.text("quantity")) {
          case "Lq" -> rate * wait;
          case "L" -> rate * (wait + service);
          case "Wq" -> wait;
          case "W" -> wait + service;
          default -> throw new IllegalStateException(row.text("quantity"));
        };
    assertThat(actual)
        .isCloseTo(
            row.number("recomputed"), within(asPrinted(row.text("recomputed")).value + 1e-12));
  }

  /** A thousand units under a load of 999: held against the recursion in 50 digits. */
  @ParameterizedTest
  @CsvSource({"1000,999", "1000,1000", "1000,1", "500,5000", "1000,0.001", "40,39.999999"})
  void extremesAreExact(int units, String load) {
    MathContext digits = new MathContext(50);
    BigDecimal a = new BigDecimal(load);
    BigDecimal b = BigDecimal.ONE;
    for (int n = 1; n <= units; n++) {
      BigDecimal ab = a.multiply(b, digits);
      b = ab.divide(ab.add(BigDecimal.valueOf(n)), digits);
    }
    double expected = b.doubleValue();
    assertThat(Erlang.turnedAway(units, a.doubleValue()))
        .isCloseTo(expected, within(1e-13 * expected));
    if (units > a.doubleValue()) {
      BigDecimal n = BigDecimal.valueOf(units);
      double c =
          n.multiply(b)
              .divide(n.subtract(a.multiply(BigDecimal.ONE.subtract(b))), digits)
              .doubleValue();
      // 1e-9 where 40 - 39.999999 makes the load's own rounding weigh a million times.
      assertThat(Erlang.mustWait(units, a.doubleValue()).getAsDouble())
          .isCloseTo(c, within(c * (units == 40 ? 1e-9 : 1e-12)));
    } else {
      assertThat(Erlang.mustWait(units, a.doubleValue())).isEmpty();
    }
  }

  @Test
  void noRequestsNoUnitsAndSureTargets() {
    LendingPool idle = LendingPool.of(0, 30, 1, 2, 0.5);
    assertThat(idle.turnedAway()).isZero();
    assertThat(idle.unitsForTarget()).isEqualTo(1);
    assertThat(idle.curve()).hasSize(6);
    LendingPool none = LendingPool.of(7, 2, 0, 0, 1);
    assertThat(none.turnedAway()).isEqualTo(1);
    assertThat(none.mustWait()).isEmpty();
    assertThat(none.meanWaitDays()).isEmpty();
    assertThat(none.unitsForTarget()).isZero();
    assertThat(none.curve()).extracting(LendingPool.Point::units).containsExactly(0, 1, 2, 3);
    assertThat(Erlang.unitsFor(5_000, Double.MIN_VALUE)).isBetween(6_000, 12_000);
  }

  @Test
  void refusesLoadsBeyondTheLimit() {
    assertThatThrownBy(() -> LendingPool.of(7, 5_001, 0, 1, 0.1)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> LendingPool.of(Double.NaN, 1, 0, 1, 0.1)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> LendingPool.of(1, 1, 0, 1_001, 0.1)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> LendingPool.of(1, 1, 0, 1, 0)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> LendingPool.of(1, 1, 0, 1, 1.1)).isInstanceOf(BadInput.class);
  }
}
