package clinic.stimshelf.calc.demand;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.BadInput;
import java.util.List;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.apache.commons.statistics.distribution.PoissonDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PmfTest {

  @Test
  void theSumOfTwoDiceIsATriangle() {
    double sixth = 1 / 6.0;
    Pmf die = Pmf.of(0, sixth, sixth, sixth, sixth, sixth, sixth);
    Pmf two = die.convolve(die);
    for (int k = 2; k <= 12; k++) {
      assertThat(two.mass(k)).isCloseTo((6 - Math.abs(k - 7)) / 36.0, within(1e-16));
    }
    assertThat(die.times(2)).isEqualTo(two);
    assertThat(die.times(0)).isEqualTo(Pmf.ZERO);
    assertThat(two.quantile(0.5)).isEqualTo(7);
    assertThat(two.shortfall(11)).isCloseTo(1 / 36.0, within(1e-16));
  }

  @Test
  void manyMaybesAreBinomial() {
    BinomialDistribution binomial = BinomialDistribution.of(40, 0.3);
    Pmf maybes = Pmf.maybe(1, 0.3).times(40);
    Pmf thinned = Pmf.certain(40).thin(0.3);
    for (int k = 0; k <= 40; k++) {
      double expected = binomial.probability(k);
      assertThat(maybes.mass(k)).isCloseTo(expected, within(1e-12 * expected));
      assertThat(thinned.mass(k)).isCloseTo(expected, within(1e-12 * expected));
    }
  }

  @Test
  void aThinnedPoissonIsPoisson() {
    Pmf thinned = CompoundPoisson.single(6).over(1).thin(0.25);
    Pmf direct = CompoundPoisson.single(1.5).over(1);
    for (int k = 0; k < 30; k++) {
      assertThat(thinned.mass(k)).isCloseTo(direct.mass(k), within(1e-13 * direct.mass(k)));
    }
  }

  @Test
  void aTailOfTenToMinusThreeHundredKeepsItsDigits() {
    Pmf rare = Pmf.maybe(1, 1e-100).times(3);
    assertThat(rare.above(2)).isCloseTo(1e-300, within(1e-313));
    assertThat(CompoundPoisson.single(1e-300).over(1).above(0)).isEqualTo(1e-300);
    assertThat(CompoundPoisson.single(1e-300).over(1).shortfall(0)).isEqualTo(1e-300);
  }

  /** Against an independent implementation of the Poisson distribution. */
  @ParameterizedTest
  @ValueSource(doubles = {0.001, 0.7, 20, 700, 800, 10_000})
  void poissonAgreesWithALibraryFarIntoTheTail(double mean) {
    Pmf ours = CompoundPoisson.single(mean).over(1);
    PoissonDistribution library = PoissonDistribution.of(mean);
    for (int k = 0; k <= ours.max(); k += Math.max(1, ours.max() / 50)) {
      double expected = library.probability(k);
      if (expected > 1e-45) {
        assertThat(ours.mass(k)).as("P(D = %s)", k).isCloseTo(expected, within(1e-10 * expected));
      }
      double tail = library.survivalProbability(k);
      if (tail > 1e-30) {
        assertThat(ours.above(k)).as("P(D > %s)", k).isCloseTo(tail, within(1e-10 * tail));
      }
    }
  }

  @Test
  void mixturesWeigh() {
    Pmf mixed = Pmf.mixture(new double[] {0.25, 0.75}, List.of(Pmf.certain(1), Pmf.certain(3)));
    assertThat(mixed).isEqualTo(Pmf.of(0, 0.25, 0, 0.75));
    assertThat(mixed.mean()).isEqualTo(2.5);
    assertThat(mixed.variance()).isEqualTo(0.75);
  }

  @Test
  void refusesWhatIsNoDistribution() {
    assertThatThrownBy(() -> Pmf.of(0.5, 0.4)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> Pmf.of(Double.NaN, 1)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> Pmf.of(-0.5, 1.5)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> CompoundPoisson.single(10_001).over(1)).hasMessageContaining("10 000");
  }

  @Property(tries = 200)
  void momentsAddUpUnderConvolution(
      @ForAll @Size(min = 1, max = 12) List<@IntRange(max = 9) Integer> a,
      @ForAll @Size(min = 1, max = 12) List<@IntRange(max = 9) Integer> b,
      @ForAll @DoubleRange(max = 1) double p,
      @ForAll @IntRange(max = 25) int k) {
    Pmf x = pmf(a);
    Pmf y = pmf(b);
    Pmf sum = x.convolve(y);
    assertThat(sum.mean()).isCloseTo(x.mean() + y.mean(), within(1e-12));
    assertThat(sum.variance()).isCloseTo(x.variance() + y.variance(), within(1e-11));
    assertThat(sum.atMost(k) + sum.above(k)).isCloseTo(1, within(1e-14));
    double walked = IntStream.range(k, 40).mapToDouble(sum::above).sum();
    assertThat(sum.shortfall(k)).isCloseTo(walked, within(1e-13));
    assertThat(x.thin(p).mean()).isCloseTo(p * x.mean(), within(1e-12));
    assertThat(x.thin(p).convolve(y.thin(p)).mass(k)).isCloseTo(sum.thin(p).mass(k), within(1e-13));
  }

  private static Pmf pmf(List<Integer> weights) {
    double[] w = weights.stream().mapToDouble(i -> i + 0.5).toArray();
    return Pmf.normalised(w);
  }
}
