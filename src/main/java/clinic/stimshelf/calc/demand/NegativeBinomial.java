package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import org.apache.commons.numbers.gamma.RegularizedBeta;

/**
 * The negative binomial distribution by its mean m and variance v, v above m: {@code r = m²/(v −
 * m)} (not necessarily whole) and {@code p = m/v}, with {@code P(D = k) = C(k + r − 1, k) p^r (1 −
 * p)^k}.
 *
 * <p>{@code P(D <= k) = I_p(r, k + 1)}, the regularised incomplete beta function, and {@code E[(D −
 * k)+] = m P(D' >= k) − k P(D > k)} where D' has r + 1 for r; the difference loses few digits
 * exactly where the tail is long, and a short tail is laid out as a {@link Pmf} instead.
 */
final class NegativeBinomial implements Counts {

  /** Above this ratio of variance to mean the tail is too long to lay out. */
  private static final double LONG_TAIL = 100;

  /** Shares below this are no numbers that could be summed with any accuracy. */
  private static final double LEAST_SHARE = 1e-306;

  private final double mean;
  private final double variance;
  private final double r;
  private final double p;

  private NegativeBinomial(double mean, double variance) {
    this.mean = mean;
    this.variance = variance;
    this.r = mean * (mean / (variance - mean));
    this.p = mean / variance;
  }

  /**
   * @param mean above 0, at most 10 000
   * @param variance above the mean
   * @param matters the smallest number of packs that matters, at most 1
   */
  static Counts of(double mean, double variance, double matters) {
    Check.positive("demand.meanPerDay", mean);
    if (!(mean <= CompoundPoisson.LARGEST_MEAN)) {
      throw new BadInput(
          "demand.meanPerDay",
          "The mean demand over the time is " + mean + " packs, but at most 10 000 are computed.");
    }
    if (!(variance > mean && variance <= Double.MAX_VALUE)) {
      throw new BadInput(
          "demand.sdPerDay",
          "The variance "
              + variance
              + " must be above the mean "
              + mean
              + " for a negative binomial demand; raise the standard deviation or use Poisson.");
    }
    return variance / mean <= LONG_TAIL
        ? layOut(mean, variance, matters)
        : inClosedForm(mean, variance);
  }

  /** By the incomplete beta function, whatever the tail. */
  static Counts inClosedForm(double mean, double variance) {
    return new NegativeBinomial(mean, variance);
  }

  private static Pmf layOut(double mean, double variance, double matters) {
    double q = (variance - mean) / variance;
    double rq = mean * (mean / variance);
    double floor = Math.max(LEAST_SHARE, 1e-54 * Math.min(Math.min(1, mean), matters));
    ScaledMasses masses = new ScaledMasses();
    masses.append(1);
    for (int k = 1; k <= mean || masses.get(k - 1) > floor * masses.sum(); k++) {
      masses.append(masses.get(k - 1) * (rq + (k - 1) * q) / k);
    }
    return masses.toPmf();
  }

  @Override
  public double mean() {
    return mean;
  }

  @Override
  public double variance() {
    return variance;
  }

  @Override
  public double atMost(long k) {
    return k < 0 ? 0 : RegularizedBeta.value(p, r, k + 1.0);
  }

  @Override
  public double above(long k) {
    return k < 0 ? 1 : RegularizedBeta.complement(p, r, k + 1.0);
  }

  @Override
  public double shortfall(long k) {
    double atLeast = k == 0 ? 1 : RegularizedBeta.complement(p, r + 1, k);
    return mean * atLeast - k * above(k);
  }
}
