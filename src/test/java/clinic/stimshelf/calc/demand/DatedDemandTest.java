package clinic.stimshelf.calc.demand;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.demand.DatedDemand.Dated;
import clinic.stimshelf.calc.demand.DatedDemand.Reason;
import clinic.stimshelf.calc.demand.DatedDemand.Reorder;
import clinic.stimshelf.calc.demand.DatedDemand.Stream;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class DatedDemandTest {

  private static final LocalDate TODAY = LocalDate.parse("2026-05-04");

  @Test
  void knownPacksCountUpToTheEndOfTheInterval() {
    DatedDemand<String> demand =
        DatedDemand.of(
            TODAY,
            List.of(
                new Dated<>("late", TODAY.minusDays(3), 1, 1),
                new Dated<>("today", TODAY, 1, 1),
                new Dated<>("last", TODAY.plusDays(7), 1, 1),
                new Dated<>("out", TODAY.plusDays(8), 1, 1)),
            List.of());
    Reorder<String> reorder = demand.reorder(LeadTime.fixed(7), 1, 0.95);
    assertThat(reorder.packs()).isEqualTo(3);
    assertThat(reorder.reasons())
        .extracting(Reason::source)
        .containsExactly("late", "today", "last");
    assertThat(reorder.safety()).isEqualByComparingTo("0");
  }

  @Test
  void aReviewOfLessThanADayCountsAsADay() {
    DatedDemand<String> demand =
        DatedDemand.of(TODAY, List.of(new Dated<>("today", TODAY, 2, 1)), List.of());
    assertThat(demand.reorder(LeadTime.fixed(0), 0, 0.9).packs()).isEqualTo(2);
  }

  @Test
  void reasonsSumToTheReorderPoint() {
    DatedDemand<String> demand =
        DatedDemand.of(
            TODAY,
            List.of(
                new Dated<>("Program A", TODAY.plusDays(2), 1, 1),
                new Dated<>("Program A", TODAY.plusDays(6), 1, 0.8),
                new Dated<>("Program B", TODAY.plusDays(9), 2, 0.8)),
            List.of(
                new Stream<>("drawer", CompoundPoisson.single(0.1)),
                new Stream<>(
                    "new starts",
                    new CompoundPoisson(0.2, BatchSizes.of(Map.of(1, 0.5, 2, 0.5))))));
    LeadTime leadTime = LeadTime.of(Map.of(5, 0.5, 10, 0.5));
    Reorder<String> reorder = demand.reorder(leadTime, 1, 0.95);
    BigDecimal sum =
        reorder.reasons().stream().map(Reason::packs).reduce(reorder.safety(), BigDecimal::add);
    assertThat(sum).isEqualByComparingTo(BigDecimal.valueOf(reorder.packs()));
    // A: 1 surely, and the second only in the longer interval; B only in the longer one.
    assertThat(reorder.reasons())
        .contains(
            new Reason<>("Program A", new BigDecimal("1.40")),
            new Reason<>("Program B", new BigDecimal("0.80")),
            new Reason<>("drawer", new BigDecimal("0.85")),
            new Reason<>("new starts", new BigDecimal("2.55")));
    assertThat(reorder.point().meanDemand()).isCloseTo(5.6, within(1e-12));
    assertThat(reorder.distribution().atMost(reorder.packs())).isGreaterThanOrEqualTo(0.95);
    assertThat(reorder.distribution().atMost(reorder.packs() - 1)).isLessThan(0.95);
  }

  /** Every outcome of a handful of maybes and lead times, enumerated by hand. */
  @Property(tries = 60)
  void agreesWithEnumeration(
      @ForAll @Size(min = 1, max = 7) List<@IntRange(max = 12) Integer> offsets,
      @ForAll @IntRange(max = 6) int shortLead,
      @ForAll @IntRange(max = 6) int longer,
      @ForAll @DoubleRange(min = 0.1, max = 0.9) double p,
      @ForAll @DoubleRange(min = 0.05, max = 0.99) double level) {
    List<Dated<Integer>> dated = new ArrayList<>();
    for (int i = 0; i < offsets.size(); i++) {
      dated.add(new Dated<>(i, TODAY.plusDays(offsets.get(i)), 1 + i % 3, p));
    }
    LeadTime leadTime =
        new LeadTime(
            List.of(
                new LeadTime.Outcome(shortLead, 0.3),
                new LeadTime.Outcome(shortLead + longer, 0.7)));
    double[] byHand = new double[40];
    for (LeadTime.Outcome outcome : leadTime.outcomes()) {
      for (int chosen = 0; chosen < 1 << dated.size(); chosen++) {
        double chance = outcome.probability();
        int packs = 0;
        for (int i = 0; i < dated.size(); i++) {
          boolean drawn = (chosen >> i & 1) == 1;
          chance *= drawn ? p : 1 - p;
          packs += drawn && offsets.get(i) < outcome.days() + 2 ? dated.get(i).packs() : 0;
        }
        byHand[packs] += chance;
      }
    }
    Reorder<Integer> reorder = DatedDemand.of(TODAY, dated, List.of()).reorder(leadTime, 2, level);
    double below = 0;
    for (int k = 0; k < byHand.length; k++) {
      assertThat(reorder.distribution().mass(k)).isCloseTo(byHand[k], within(1e-14));
      if (k < reorder.packs()) {
        below += byHand[k];
        assertThat(below).isLessThan(level);
      }
    }
    assertThat(below + byHand[(int) reorder.packs()]).isGreaterThanOrEqualTo(level - 1e-12);
  }

  @Test
  void projectsTheShelfDayByDay() {
    DatedDemand<String> demand =
        DatedDemand.of(
            TODAY,
            List.of(
                new Dated<>("A", TODAY.plusDays(1), 3, 0.5),
                new Dated<>("B", TODAY.plusDays(2), 2, 1)),
            List.of());
    List<ProjectedDay> days = demand.projection(4, Map.of(TODAY.plusDays(3), 5L), 28, 0.8);
    assertThat(days).hasSize(28);
    assertThat(days.get(0)).isEqualTo(new ProjectedDay(TODAY, 4, 4, 4, 0));
    assertThat(days.get(1)).isEqualTo(new ProjectedDay(TODAY.plusDays(1), 2.5, 1, 4, 0));
    assertThat(days.get(2)).isEqualTo(new ProjectedDay(TODAY.plusDays(2), 0.5, -1, 2, 0.5));
    assertThat(days.get(3)).isEqualTo(new ProjectedDay(TODAY.plusDays(3), 5.5, 4, 7, 0));
  }

  /**
   * A shelf that is run by the reorder point, simulated with a fixed seed: it starts each cycle at
   * s and sees what is asked for until the order is there. The share of cycles without a stock-out
   * must lie within four standard errors of the computed chance, and so must the mean shortage.
   */
  @Test
  void aSimulatedShelfServesAsOftenAsComputed() {
    DatedDemand<String> demand =
        DatedDemand.of(
            TODAY,
            List.of(
                new Dated<>("A", TODAY.plusDays(1), 2, 0.8),
                new Dated<>("B", TODAY.plusDays(4), 1, 0.9),
                new Dated<>("C", TODAY.plusDays(8), 2, 0.8)),
            List.of(
                new Stream<>(
                    "new", new CompoundPoisson(0.3, BatchSizes.of(Map.of(1, 0.6, 3, 0.4))))));
    LeadTime leadTime = LeadTime.of(Map.of(3, 0.5, 6, 0.3, 9, 0.2));
    Reorder<String> reorder = demand.reorder(leadTime, 1, 0.9);
    Random random = new Random(20260504);
    int cycles = 200_000;
    int served = 0;
    double lacking = 0;
    double lackingSquared = 0;
    for (int i = 0; i < cycles; i++) {
      double u = random.nextDouble();
      int days = 1 + (u < 0.5 ? 3 : u < 0.8 ? 6 : 9);
      long asked = drawn(random, days, 1, 2, 0.8) + drawn(random, days, 4, 1, 0.9);
      asked += drawn(random, days, 8, 2, 0.8);
      double clock = gap(random);
      for (; clock < days; clock += gap(random)) {
        asked += random.nextDouble() < 0.6 ? 1 : 3;
      }
      long lack = Math.max(0, asked - reorder.packs());
      served += lack == 0 ? 1 : 0;
      lacking += lack;
      lackingSquared += (double) lack * lack;
    }
    double chance = 1 - reorder.point().chanceOfStockout();
    double error = Math.sqrt(chance * (1 - chance) / cycles);
    assertThat(served / (double) cycles).isCloseTo(chance, within(4 * error));
    double mean = lacking / cycles;
    double meanError = Math.sqrt((lackingSquared / cycles - mean * mean) / cycles);
    assertThat(mean).isCloseTo(reorder.point().expectedShortPerCycle(), within(4 * meanError));
  }

  private static long drawn(Random random, int days, int day, int packs, double p) {
    return random.nextDouble() < p && day < days ? packs : 0;
  }

  private static double gap(Random random) {
    return -Math.log(1 - random.nextDouble()) / 0.3;
  }
}
