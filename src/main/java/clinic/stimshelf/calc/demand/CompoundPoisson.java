package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.util.Arrays;
import java.util.Comparator;

/**
 * Takings arrive as a Poisson stream, each takes a batch.
 *
 * <p>With rate λ over the time and batch sizes f, the mass follows Panjer's recursion {@code p(s) =
 * λ/s Σ j f(j) p(s−j)} (Panjer 1981, <i>ASTIN Bulletin</i> 12:22-26), whose terms are all positive,
 * so it is stable. Mean {@code λ E[X]}, variance {@code λ E[X²]}. With single packs it is the
 * Poisson distribution.
 *
 * @param rate takings per unit of time, 0 or more
 * @param sizes packs per taking
 */
public record CompoundPoisson(double rate, BatchSizes sizes) {

  /** Largest mean for which a distribution is laid out. */
  public static final double LARGEST_MEAN = 10_000;

  /** Mass beyond the last kept number of packs, as a share of what matters. */
  private static final double BEYOND = 1e-50;

  /** Shares below this are no numbers that could be summed with any accuracy. */
  private static final double LEAST_SHARE = 1e-306;

  public CompoundPoisson {
    Check.notNegative("rate", rate);
  }

  /** A stream of single packs. */
  public static CompoundPoisson single(double rate) {
    return new CompoundPoisson(rate, BatchSizes.SINGLE);
  }

  /** The stream with so many packs per unit of time on average. */
  public static CompoundPoisson ofMean(double mean, BatchSizes sizes) {
    return new CompoundPoisson(mean / sizes.mean(), sizes);
  }

  /** The stream where each taking happens only with the probability, 0 to 1. */
  public CompoundPoisson thin(double probability) {
    return new CompoundPoisson(rate * Check.probability("probability", probability), sizes);
  }

  /** Packs per unit of time. */
  public double mean() {
    return rate * sizes.mean();
  }

  /** Variance of the packs in one unit of time. */
  public double variance() {
    return rate * sizes.meanSquare();
  }

  /**
   * Packs over so much time.
   *
   * @param time 0 or more
   * @throws BadInput if the mean over that time is above {@link #LARGEST_MEAN}
   */
  public Pmf over(double time) {
    return over(time, 1);
  }

  /**
   * @param matters the smallest number of packs that matters, at most 1; the distribution is cut
   *     where less than 1e-50 of it is left
   */
  Pmf over(double time, double matters) {
    Check.notNegative("time", time);
    double arrivals = rate * time;
    double mean = countable(arrivals * sizes.mean());
    int[] packs = new int[sizes.count()];
    double[] weight = new double[sizes.count()];
    for (int i = 0; i < weight.length; i++) {
      packs[i] = sizes.packs(i);
      weight[i] = arrivals * packs[i] * sizes.probability(i);
    }
    double floor = floor(arrivals, matters);
    ScaledMasses masses = new ScaledMasses();
    masses.append(1);
    double largestLately = Double.POSITIVE_INFINITY;
    for (int s = 1; s <= mean || largestLately > floor * masses.sum(); s++) {
      masses.append(masses.dotBack(packs, weight) / s);
      if (s % sizes.largest() == 0) {
        largestLately = 0;
        for (int k = s; k > s - sizes.largest(); k--) {
          largestLately = Math.max(largestLately, masses.get(k));
        }
      }
    }
    return masses.toPmf();
  }

  /**
   * Packs over a time that is one of several.
   *
   * @param times 0 or more
   * @param weights the probability of each time, summing to 1
   * @param matters as for one time
   */
  Pmf over(double[] times, double[] weights, double matters) {
    if (times.length == 1) {
      return over(times[0], matters);
    }
    Integer[] descending = new Integer[times.length];
    Arrays.setAll(descending, i -> i);
    Arrays.sort(descending, Comparator.comparingDouble(i -> -times[i]));
    double[] arrivals = new double[times.length];
    double[] weight = new double[times.length];
    for (int i = 0; i < times.length; i++) {
      arrivals[i] = rate * Check.notNegative("time", times[descending[i]]);
      countable(arrivals[i] * sizes.mean());
      weight[i] = weights[descending[i]];
    }
    return new BatchLanes(arrivals, weight, sizes, matters).mixed();
  }

  /** The share of all mass below which a mass, and with it all that follow, no longer counts. */
  static double floor(double arrivals, double matters) {
    return Math.max(LEAST_SHARE, BEYOND * Math.min(Math.min(1, arrivals), matters));
  }

  private static double countable(double mean) {
    if (!(mean <= LARGEST_MEAN)) {
      throw new BadInput(
          "demand.meanPerDay",
          "The mean demand over the time is " + mean + " packs, but at most 10 000 are computed.");
    }
    return mean;
  }
}
