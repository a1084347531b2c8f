package clinic.stimshelf.calc.demand;

import static clinic.stimshelf.calc.Checks.asPrinted;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Checks;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class ReorderPointTest {

  private static final OptionalDouble NO_QUANTITY = OptionalDouble.empty();

  static Stream<Checks.Row> discrete() {
    return Checks.rows("02_discrete_reorder_points.csv").stream();
  }

  static Stream<Checks.Row> exactPolicies() {
    return Checks.rows("02_rQ_poisson_exact.csv").stream();
  }

  @ParameterizedTest
  @MethodSource("discrete")
  void smallestStockThatMeetsTheLevel(Checks.Row row) {
    double mean = row.number("mean");
    Counts demand =
        row.text("distribution").equals("poisson")
            ? new DailyDemand.Poisson(mean).over(1, 1)
            : new DailyDemand.Overdispersed(mean, Math.sqrt(row.number("variance"))).over(1, 1);
    int s = row.whole("min_s_with_cdf_ge_P1");
    ReorderPoint point =
        ReorderPoint.of(demand, Target.cycle(row.number("service_P1")), NO_QUANTITY);
    assertThat(point.reorderPoint()).isEqualTo(s);
    assertThat(demand.atMost(s)).isCloseTo(row.number("cdf_at_s"), asPrinted(row.text("cdf_at_s")));
    assertThat(demand.atMost(s - 1))
        .isCloseTo(row.number("cdf_at_s_minus_1"), asPrinted(row.text("cdf_at_s_minus_1")));
    assertThat(point.expectedShortPerCycle())
        .isCloseTo(row.number("expected_short_at_s"), asPrinted(row.text("expected_short_at_s")));
    assertThat(demand.atMost(0))
        .isCloseTo(row.number("prob_zero"), asPrinted(row.text("prob_zero")));
  }

  /**
   * The exact (R, Q) policy is the average over inventory positions R + 1 … R + Q: the file checks
   * the distribution and the shortfall out of which the product's own figures are made.
   */
  @ParameterizedTest
  @MethodSource("exactPolicies")
  void policiesBuiltFromCountsAreExact(Checks.Row row) {
    Pmf demand = CompoundPoisson.single(row.number("lead_time_demand_mean")).over(1);
    int r = row.whole("R");
    int q = row.whole("Q");
    double ready = 0;
    double backorders = 0;
    for (int position = r + 1; position <= r + q; position++) {
      ready += demand.atMost(position - 1) / q;
      backorders += demand.shortfall(position) / q;
    }
    double onHand = r + (q + 1) / 2.0 - demand.mean() + backorders;
    close(row, "prob_on_hand_positive_ready_rate_equals_fill_rate", ready);
    close(row, "expected_backorders", backorders);
    close(row, "expected_on_hand", onHand);
    close(row, "order_prob_cycle_no_stockout", demand.atMost(r));
  }

  private static void close(Checks.Row row, String column, double actual) {
    // 2e-12: the file's own sums are cut after twelve digits before they are averaged.
    assertThat(actual)
        .isCloseTo(row.number(column), within(asPrinted(row.text(column)).value + 2e-12));
  }

  /** A long-tailed negative binomial is computed without laying it out; both ways must agree. */
  @ParameterizedTest
  @CsvSource({"5,15", "24.5,80", "3,290", "0.02,1.9", "400,39000", "9000,20000"})
  void longTailsAgreeWithTheLaidOutDistribution(double mean, double variance) {
    Pmf laidOut = (Pmf) NegativeBinomial.of(mean, variance, 1);
    Counts longTail = NegativeBinomial.inClosedForm(mean, variance);
    for (int k = 0; k < laidOut.max(); k = 1 + 3 * k / 2) {
      if (laidOut.above(k) > 1e-30) {
        assertThat(longTail.above(k)).isCloseTo(laidOut.above(k), within(1e-9 * laidOut.above(k)));
        assertThat(longTail.atMost(k)).isCloseTo(laidOut.atMost(k), within(1e-11));
      }
      if (laidOut.above(k) > 1e-4) {
        assertThat(longTail.shortfall(k))
            .isCloseTo(laidOut.shortfall(k), within(1e-9 * laidOut.shortfall(k)));
      }
    }
  }

  @Test
  void anEnormousVarianceStillHasAnAnswer() {
    Counts demand = new DailyDemand.Overdispersed(1, 1e9).over(1, 1);
    ReorderPoint point = ReorderPoint.of(demand, Target.cycle(0.99), NO_QUANTITY);
    assertThat(point.reorderPoint()).isZero();
    // P(D > 0) = 1 - p^r with r = p = 1e-18 to first order: 1e-18 ln 1e18.
    assertThat(point.chanceOfStockout()).isCloseTo(4.144653167e-17, within(1e-25));
    assertThat(point.expectedShortPerCycle()).isCloseTo(1, within(1e-12));
  }

  @Test
  void aLevelMissedByRoundingCountsAsMet() {
    Pmf demand = Pmf.of(0.5, 0.3, 0.2);
    assertThat(at(demand, 0.8)).isEqualTo(1);
    assertThat(at(demand, 0.8 + 5e-13)).isEqualTo(1);
    assertThat(at(demand, 0.8 + 5e-12)).isEqualTo(2);
    assertThat(at(demand, 1e-300)).isZero();
  }

  @Test
  void fillTargetsNeedAQuantity() {
    assertThatThrownBy(() -> ReorderPoint.of(Pmf.ZERO, Target.fill(0.9), NO_QUANTITY))
        .isInstanceOf(BadInput.class)
        .hasMessageContaining("order quantity");
    assertThatThrownBy(() -> Target.cycle(1)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> Target.fill(Double.NaN)).isInstanceOf(BadInput.class);
  }

  @Test
  void withoutSpreadTheMeanIsEnough() {
    ReorderPoint cycle = ReorderPoint.normal(12, 0, Target.cycle(0.99), NO_QUANTITY);
    assertThat(cycle).isEqualTo(new ReorderPoint(12, 12, 0, 0, 0));
    ReorderPoint fill = ReorderPoint.normal(12, 0, Target.fill(0.75), OptionalDouble.of(20));
    assertThat(fill.reorderPoint()).isEqualTo(7);
    assertThat(fill.expectedShortPerCycle()).isEqualTo(5);
    assertThat(fill.fillRate(20)).isEqualTo(0.75);
  }

  @Property(tries = 100)
  void theReorderPointIsTheSmallestThatMeetsTheTarget(
      @ForAll @DoubleRange(min = 0.01, max = 60) double mean,
      @ForAll @DoubleRange(min = 0.01, max = 0.99) double level,
      @ForAll @IntRange(min = 1, max = 30) int quantity) {
    Pmf demand = CompoundPoisson.single(mean).over(1);
    long cycle = at(demand, level);
    assertThat(demand.atMost(cycle)).isGreaterThanOrEqualTo(level - 1e-12);
    assertThat(cycle == 0 || demand.atMost(cycle - 1) < level).isTrue();
    ReorderPoint fill = ReorderPoint.of(demand, Target.fill(level), OptionalDouble.of(quantity));
    assertThat(fill.fillRate(quantity)).isGreaterThanOrEqualTo(level - 1e-12);
    if (fill.reorderPoint() > 0) {
      double before = 1 - demand.shortfall((long) fill.reorderPoint() - 1) / quantity;
      assertThat(before).isLessThan(level);
    }
  }

  /** A random lead time: 08_random_lead_time.csv, Poisson demand of 1.3 a day. */
  @Test
  void mixesOverLeadTimesExactly() {
    Checks.Row row = Checks.rows("08_random_lead_time.csv").get(0);
    LeadTime leadTime = leadTime(row.text("lead_time_pmf"));
    assertThat(leadTime.mean()).isCloseTo(row.number("EL"), within(1e-12));
    assertThat(leadTime.variance()).isCloseTo(row.number("VL"), within(1e-12));
    for (String level : List.of("90", "95", "99")) {
      Replenishment r =
          Replenishment.of(
              new DailyDemand.Poisson(1.3),
              leadTime,
              0,
              Target.cycle(Double.parseDouble("0." + level)),
              Replenishment.Terms.NONE);
      assertThat(r.point().reorderPoint()).isEqualTo(row.number("q" + level));
      assertThat(r.point().meanDemand()).isCloseTo(row.number("mean"), within(1e-12));
      assertThat(r.point().sdDemand() * r.point().sdDemand())
          .isCloseTo(row.number("variance"), within(1e-12));
    }
    Replenishment normal =
        Replenishment.of(
            new DailyDemand.Normal(1.3, Math.sqrt(1.3)),
            leadTime,
            0,
            Target.cycle(0.95),
            Replenishment.Terms.NONE);
    assertThat(normal.point().reorderPoint())
        .isCloseTo(row.number("normal_rop_95"), asPrinted(row.text("normal_rop_95")));
  }

  private static LeadTime leadTime(String pmf) {
    return new LeadTime(
        Stream.of(pmf.split(" "))
            .map(part -> part.split(":"))
            .map(p -> new LeadTime.Outcome(Double.parseDouble(p[0]), Double.parseDouble(p[1])))
            .toList());
  }

  private static long at(Pmf demand, double level) {
    return (long) ReorderPoint.of(demand, Target.cycle(level), NO_QUANTITY).reorderPoint();
  }

  @Test
  void ownDeliveriesReplaceThePriorOneByOne() {
    LeadTime prior = LeadTime.fixed(10);
    assertThat(LeadTime.observed(List.of(), prior)).isEqualTo(prior);
    assertThat(LeadTime.observed(List.of(3, 5), prior).mean())
        .isCloseTo((3 + 5 + 3 * 10) / 5.0, within(1e-12));
    List<Integer> enough = IntStream.rangeClosed(1, 5).boxed().toList();
    assertThat(LeadTime.observed(enough, prior).mean()).isCloseTo(3, within(1e-12));
  }
}
