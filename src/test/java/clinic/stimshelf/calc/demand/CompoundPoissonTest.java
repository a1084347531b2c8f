package clinic.stimshelf.calc.demand;

import static clinic.stimshelf.calc.Checks.asPrinted;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.Checks;
import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.IntToDoubleFunction;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class CompoundPoissonTest {

  private static final double THIRD = 1 / 3.0;

  /** The batch sizes that 08_compound_poisson.csv describes in words. */
  private static final Map<String, BatchSizes> SIZES =
      Map.of(
          "CP1", BatchSizes.of(Map.of(1, THIRD / 2, 2, THIRD, 3, THIRD, 4, THIRD / 2)),
          "CP2", BatchSizes.of(Map.of(1, 0.5, 2, 0.3, 3, 0.15, 4, 0.05)),
          "CP3", sizes(j -> 0.4 * Math.pow(0.6, j - 1)),
          "CP4", sizes(j -> -Math.pow(0.6, j) / (j * Math.log(0.4))));

  static Stream<Checks.Row> summaries() {
    return Checks.rows("08_compound_poisson.csv").stream();
  }

  static Stream<Checks.Row> masses() {
    return Checks.rows("08_compound_poisson_pmf.csv").stream();
  }

  @ParameterizedTest
  @MethodSource("summaries")
  void momentsAndQuantiles(Checks.Row row) {
    CompoundPoisson stream = stream(row.text("id"));
    Pmf pmf = stream.over(1);
    assertThat(stream.mean()).isCloseTo(row.number("mean"), asPrinted(row.text("mean")));
    assertThat(pmf.mean()).isCloseTo(row.number("mean"), asPrinted(row.text("mean")));
    assertThat(pmf.variance()).isCloseTo(row.number("variance"), asPrinted(row.text("variance")));
    assertThat(pmf.mass(0)).isCloseTo(row.number("p0"), asPrinted(row.text("p0")));
    for (String level : new String[] {"90", "95", "99"}) {
      if (row.has("q" + level)) {
        assertThat(pmf.quantile(Double.parseDouble("0." + level)))
            .isEqualTo(row.whole("q" + level));
      }
    }
  }

  @ParameterizedTest
  @MethodSource("masses")
  void massByPanjersRecursion(Checks.Row row) {
    Pmf pmf = stream(row.text("id")).over(1);
    assertThat(pmf.mass(row.whole("s"))).isCloseTo(row.number("pmf"), asPrinted(row.text("pmf")));
    assertThat(pmf.atMost(row.whole("s"))).isCloseTo(row.number("cdf"), asPrinted(row.text("cdf")));
  }

  /** Logarithmic batches make a negative binomial demand: two implementations, one distribution. */
  @Test
  void logarithmicBatchesAreNegativeBinomial() {
    Pmf compound = stream("CP4").over(1);
    Counts direct = NegativeBinomial.of(compound.mean(), compound.variance(), 1);
    for (int k = 0; k < 80; k++) {
      assertThat(direct.above(k)).isCloseTo(compound.above(k), within(1e-12 * compound.above(k)));
    }
  }

  @Test
  void aStreamIsInfinitelyDivisible() {
    CompoundPoisson stream = stream("CP2");
    Pmf halves = stream.over(0.5).times(2);
    Pmf whole = stream.over(1);
    for (int k = 0; k < 60; k++) {
      assertThat(halves.mass(k)).isCloseTo(whole.mass(k), within(1e-13 * whole.mass(k)));
    }
  }

  @Test
  void largeBatchesAndMeansAreLaidOutWhole() {
    CompoundPoisson stream = CompoundPoisson.ofMean(10_000, sizes(j -> 0.001));
    Pmf pmf = stream.over(1);
    assertThat(pmf.mean()).isCloseTo(10_000, within(1e-7));
    assertThat(pmf.variance() / stream.variance()).isCloseTo(1, within(1e-11));
  }

  /** Two implementations of the recursion: all times side by side, and each time by itself. */
  @Test
  void severalTimesAtOnceAreTheMixtureOfEach() {
    double[] times = {0, 0.25, 3, 390, 40};
    double[] weights = {0.1, 0.2, 0.3, 0.15, 0.25};
    for (String id : SIZES.keySet()) {
      CompoundPoisson stream = stream(id);
      Pmf atOnce = stream.over(times, weights, 1);
      Pmf oneByOne = Pmf.mixture(weights, Arrays.stream(times).mapToObj(stream::over).toList());
      for (int k = 0; k < oneByOne.max(); k++) {
        double mass = oneByOne.mass(k);
        assertThat(atOnce.mass(k)).as(id + " " + k).isCloseTo(mass, within(1e-12 * mass + 1e-60));
      }
    }
  }

  /** Many takings, of which hardly any is as large as the mean of all together. */
  @Test
  void manyTakingsWithARareLargeOneAreNotCutAtTheirMean() {
    CompoundPoisson stream =
        new CompoundPoisson(200, BatchSizes.of(Map.of(1, 1 - 1e-6, 1_000, 1e-6)));
    Pmf pmf = stream.over(1);
    assertThat(pmf.mean()).isCloseTo(stream.mean(), within(1e-9));
    assertThat(pmf.mass(0)).isCloseTo(Math.exp(-200), within(1e-12 * Math.exp(-200)));
  }

  @Test
  void theSmallestNumberThatMattersMayBeNextToNothing() {
    CompoundPoisson stream = stream("CP2");
    for (double matters : new double[] {1e-100, 1e-300, Double.MIN_VALUE}) {
      assertThat(stream.over(2, matters).mean()).isCloseTo(2 * stream.mean(), within(1e-12));
      assertThat(NegativeBinomial.of(100, 9_000, matters).mean()).isCloseTo(100, within(1e-9));
    }
  }

  private static CompoundPoisson stream(String id) {
    double rate =
        summaries()
            .filter(row -> row.text("id").equals(id))
            .findFirst()
            .orElseThrow()
            .number("lambda");
    return new CompoundPoisson(rate, SIZES.get(id));
  }

  private static BatchSizes sizes(IntToDoubleFunction probability) {
    Map<Integer, Double> sizes = new TreeMap<>();
    for (int j = 1; j <= 1_000; j++) {
      sizes.put(j, probability.applyAsDouble(j));
    }
    return BatchSizes.of(sizes);
  }
}
