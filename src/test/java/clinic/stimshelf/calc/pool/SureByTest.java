package clinic.stimshelf.calc.pool;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.pool.SureBy.Reason;
import clinic.stimshelf.calc.wear.Life;
import clinic.stimshelf.calc.wear.ProductLimit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.PriorityQueue;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.apache.commons.statistics.distribution.PoissonDistribution;
import org.junit.jupiter.api.Test;

class SureByTest {

  private static final ProductLimit TIME_AWAY =
      ProductLimit.of(
          List.of(
              Life.ended(10), Life.ended(20), Life.ended(30), Life.ended(40), Life.goingOn(45)));

  @Test
  void aFreeUnitIsSureToday() {
    SureBy sure = SureBy.of(Standing.of(1, 0, List.of()), 0.9);
    assertThat(sure.day()).hasValue(0);
    assertThat(sure.chance()).isEqualTo(1);
  }

  @Test
  void waitsForTheReturnAndTheTurnaround() {
    // After 25 days away S = 3/5; by 40 days a third is left, of which one never came back.
    Returning unit = Returning.away(TIME_AWAY, 25, 2);
    assertThat(unit.readyBy(1)).isZero();
    assertThat(unit.readyBy(7)).isCloseTo(1 / 3.0, within(1e-15));
    assertThat(unit.readyBy(17)).isCloseTo(2 / 3.0, within(1e-15));
    assertThat(SureBy.of(Standing.of(0, 0, List.of(unit)), 0.6).day()).hasValue(17);
    SureBy unsure = SureBy.of(Standing.of(0, 0, List.of(unit)), 0.7);
    assertThat(unsure.day()).isEmpty();
    assertThat(unsure.chance()).isCloseTo(2 / 3.0, within(1e-15));
    assertThat(unsure.reason()).isEqualTo(Reason.TOO_UNSURE);
  }

  @Test
  void saysWhenThereAreTooFewUnits() {
    SureBy sure =
        SureBy.of(Standing.of(0, 2, List.of(Returning.surelyOn(3), Returning.never())), 0.5);
    assertThat(sure.reason()).isEqualTo(Reason.TOO_FEW_UNITS);
    Returning unsure = day -> 0.1;
    assertThat(SureBy.of(Standing.of(0, 1, List.of(Returning.surelyOn(3), unsure)), 0.5).reason())
        .isEqualTo(Reason.TOO_UNSURE);
  }

  @Test
  void longerThanAnyPastLoanIsNotCountedOn() {
    ProductLimit allCameBack = ProductLimit.of(List.of(Life.ended(10), Life.ended(20)));
    assertThat(Returning.away(allCameBack, 25, 0).readyBy(100)).isZero();
  }

  @Test
  void independentAlikeUnitsAreBinomial() {
    Availability availability = Availability.of(1, 3, Collections.nCopies(10, 0.4));
    BinomialDistribution binomial = BinomialDistribution.of(10, 0.4);
    assertThat(availability.chance()).isCloseTo(binomial.survivalProbability(2), within(1e-14));
    for (int k = 0; k <= 10; k++) {
      assertThat(availability.distribution().get(k))
          .isCloseTo(binomial.probability(k), within(1e-15));
    }
  }

  @Test
  void extremesOfAvailability() {
    assertThat(Availability.of(1, 0, List.of())).isEqualTo(new Availability(1, List.of(1.0)));
    assertThat(Availability.of(0, 0, List.of()).chance()).isZero();
    assertThat(Availability.of(0, 1, List.of(0.0, 1.0)).distribution())
        .containsExactly(0.0, 1.0, 0.0);
    assertThat(Availability.of(0, 2, Collections.nCopies(3, 1e-100)).chance())
        .isCloseTo(1e-300, within(1e-313));
    assertThatThrownBy(() -> Availability.of(0, 0, List.of(Double.NaN)))
        .isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> SureBy.of(Standing.of(0, 0, List.of()), 1))
        .isInstanceOf(BadInput.class);
  }

  /** Every combination of units back or not, enumerated. */
  @Property(tries = 100)
  void agreesWithEnumeration(
      @ForAll @Size(max = 9) List<@DoubleRange(max = 1) Double> chances,
      @ForAll @IntRange(max = 4) int free,
      @ForAll @IntRange(max = 8) int ahead) {
    double enough = 0;
    for (int back = 0; back < 1 << chances.size(); back++) {
      double p = 1;
      for (int i = 0; i < chances.size(); i++) {
        p *= (back >> i & 1) == 1 ? chances.get(i) : 1 - chances.get(i);
      }
      enough += free + Integer.bitCount(back) >= ahead + 1 ? p : 0;
    }
    assertThat(Availability.of(free, ahead, chances).chance()).isCloseTo(enough, within(1e-14));
    List<Returning> returning = new ArrayList<>();
    chances.forEach(p -> returning.add(day -> p));
    assertThat(Standing.of(free, ahead, returning).chanceOn(5)).isCloseTo(enough, within(1e-14));
  }

  /** More newcomers than this come with a chance below 1e-13, at a mean of 2. */
  private static final int FAR = 20;

  /**
   * Every unit back before the wished day, later or not, and every number of newcomers, enumerated;
   * the units are then handed out one by one.
   */
  @Property(tries = 40)
  void rivalsTakeTheirsInTheirOrder(
      @ForAll @Size(max = 5) List<@DoubleRange(max = 0.5) Double> before,
      @ForAll @IntRange(max = 2) int free,
      @ForAll @IntRange(max = 3) int ahead,
      @ForAll @IntRange(max = 3) int earlier,
      @ForAll @DoubleRange(min = 0.01, max = 2) double aheadMean,
      @ForAll @DoubleRange(min = 0.01, max = 2) double earlierMean) {
    double later = 0.3;
    PoissonDistribution newAhead = PoissonDistribution.of(aheadMean);
    PoissonDistribution newEarlier = PoissonDistribution.of(earlierMean);
    double enough = 0;
    for (int outcome = 0; outcome < Math.pow(3, before.size()); outcome++) {
      double p = 1;
      int x = free;
      int y = 0;
      for (int i = 0, left = outcome; i < before.size(); i++, left /= 3) {
        p *= left % 3 == 0 ? before.get(i) : left % 3 == 1 ? later : 0.7 - before.get(i);
        x += left % 3 == 0 ? 1 : 0;
        y += left % 3 == 1 ? 1 : 0;
      }
      for (int a = 0; a < FAR; a++) {
        for (int e = 0; e < FAR; e++) {
          if (handedOut(x, y, ahead + a, earlier + e)) {
            enough += p * newAhead.probability(a) * newEarlier.probability(e);
          }
        }
      }
    }
    List<Returning> returning = new ArrayList<>();
    before.forEach(p -> returning.add(day -> day < 4 ? p : p + later));
    Standing standing =
        new Standing(
            free,
            returning,
            4,
            new Standing.Rivals(Collections.nCopies(ahead, 2), day -> aheadMean),
            new Standing.Rivals(Collections.nCopies(earlier, 2), day -> earlierMean));
    assertThat(standing.chanceOn(9)).isCloseTo(enough, within(1e-9));
  }

  /** Whether one is left for the request, which takes none before its day. */
  private static boolean handedOut(int early, int late, int ahead, int earlier) {
    int aheadLeft = ahead;
    int left = 0;
    for (int unit = 0, others = earlier; unit < early; unit++) {
      if (aheadLeft > 0) {
        aheadLeft--;
      } else if (others > 0) {
        others--;
      } else {
        left++;
      }
    }
    return left + late > aheadLeft;
  }

  @Test
  void whoIsAheadButWantsItLaterTakesNothingYet() {
    Standing standing =
        new Standing(
            0,
            List.of(Returning.surelyOn(3)),
            3,
            new Standing.Rivals(List.of(8), Newcomers.NONE),
            Standing.Rivals.NONE);
    assertThat(standing.chanceOn(7)).isEqualTo(1);
    assertThat(standing.chanceOn(8)).isZero();
  }

  @Test
  void onlyDaysThatCountFromTheWishedOneOnAreTold() {
    Standing standing = Standing.of(0, 0, List.of(Returning.surelyOn(3)));
    assertThat(SureBy.of(standing, 0.9, 0, day -> day % 5 == 0).day()).hasValue(5);
    assertThat(SureBy.of(standing, 0.9, 11, day -> true).day()).hasValue(11);
    assertThat(SureBy.of(standing, 0.9, 400, day -> true).day()).hasValue(400);
  }

  @Property(tries = 60)
  void theDayIsTheFirstThatReachesTheLevel(
      @ForAll @Size(min = 1, max = 12) List<@IntRange(max = 44) Integer> daysAway,
      @ForAll @IntRange(max = 5) int ahead,
      @ForAll @DoubleRange(min = 0.05, max = 0.95) double level) {
    List<Returning> away =
        daysAway.stream().map(days -> Returning.away(TIME_AWAY, days, 1)).toList();
    SureBy sure = SureBy.of(Standing.of(0, ahead, away), level);
    for (int day = 0; day <= SureBy.HORIZON; day++) {
      boolean reached = Standing.of(0, ahead, away).chanceOn(day) >= level;
      assertThat(reached).isEqualTo(sure.day().isPresent() && day >= sure.day().getAsInt());
    }
  }

  /**
   * A lending pool simulated with a fixed seed: requests at random, times away of two kinds,
   * refused when nothing is left. The share turned away must lie within four standard errors of
   * Erlang B, taken over forty independent stretches.
   */
  @Test
  void aSimulatedPoolTurnsAwayAsManyAsComputed() {
    Random random = new Random(7);
    double perDay = 0.5;
    int units = 18;
    int stretches = 40;
    double[] share = new double[stretches];
    for (int s = 0; s < stretches; s++) {
      PriorityQueue<Double> back = new PriorityQueue<>();
      double now = 0;
      int refused = 0;
      int requests = 0;
      while (requests < 6_000) {
        now += -Math.log(1 - random.nextDouble()) / perDay;
        while (!back.isEmpty() && back.element() <= now) {
          back.remove();
        }
        // Half the loans last 14 days on the dot, half 42 on average with a long tail; one day
        // wipes.
        double away = random.nextBoolean() ? 14 : 42 * -Math.log(1 - random.nextDouble());
        boolean full = back.size() == units;
        if (!full) {
          back.add(now + away + 1);
        }
        if (now > 300) {
          requests++;
          refused += full ? 1 : 0;
        }
      }
      share[s] = (double) refused / requests;
    }
    double mean = Arrays.stream(share).average().orElseThrow();
    double variance =
        Arrays.stream(share).map(x -> (x - mean) * (x - mean)).sum() / (stretches - 1);
    double computed = LendingPool.of(7 * perDay, 28, 1, units, 0.05).turnedAway();
    assertThat(mean).isCloseTo(computed, within(4 * Math.sqrt(variance / stretches)));
  }
}
