package clinic.stimshelf.calc.rates;

import clinic.stimshelf.calc.Check;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * A share of something and how sure it is: the score interval of Wilson 1927 (<i>J Am Stat
 * Assoc</i> 22:209-212) without continuity correction, method 3 of Newcombe 1998 (<i>Stat Med</i>
 * 17:857-872).
 *
 * <p>With z the two-sided normal quantile the limits are the roots of {@code (1 + z²/n) x² − (2p +
 * z²/n) x + p² = 0}. The root that would be a difference is taken from the product of both, so that
 * small limits keep their digits. The lower limit is exactly 0 where nothing was done and the upper
 * exactly 1 where everything was. It takes the trials as alike and independent; sessions of one
 * patient are not quite.
 *
 * @param rate done / of
 * @param low lower limit, 0 to rate
 * @param high upper limit, rate to 1
 * @param confidence of the interval, two-sided
 * @param done how many were done
 * @param of out of how many
 */
public record Proportion(
    double rate, double low, double high, double confidence, long done, long of) {

  private static final NormalDistribution UNIT = NormalDistribution.of(0, 1);
  private static final long MOST = 1_000_000_000;

  /** With a confidence of 0.95. */
  public static Proportion of(long done, long of) {
    return of(done, of, 0.95);
  }

  /**
   * @param done 0 to {@code of}
   * @param of 1 to 1e9
   * @param confidence strictly between 0 and 1
   */
  public static Proportion of(long done, long of, double confidence) {
    Check.within("of", of, 1, MOST);
    Check.within("done", done, 0, of);
    Check.insideUnit("confidence", confidence);
    double z = UNIT.inverseSurvivalProbability((1 - confidence) / 2);
    double spread = z * z / of;
    boolean mirrored = done > of - done;
    // Up to one half the upper root is a plain sum; above it the share not done is.
    double p = (double) (mirrored ? of - done : done) / of;
    double width = Math.sqrt(spread) * Math.sqrt(4 * p * (1 - p) + spread);
    double upper = (2 * p + spread + width) / (2 * (1 + spread));
    double lower = p == 0 ? 0 : p * p / ((1 + spread) * upper);
    return new Proportion(
        (double) done / of,
        mirrored ? 1 - upper : lower,
        mirrored ? 1 - lower : upper,
        confidence,
        done,
        of);
  }
}
