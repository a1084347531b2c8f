package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.Check;
import java.util.Arrays;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What a series of demands looks like: how rarely something is asked for and how uneven the amounts
 * are.
 *
 * <p>The cut-offs 1.32 and 0.49 are those of Syntetos, Boylan and Croston 2005 (<i>J Oper Res
 * Soc</i> 56:495-503); Kostenko and Hyndman 2006 (57:1256-7) criticise the rectangular rule, so
 * take the name as a description and not as a choice of method.
 *
 * @param meanInterval ADI: periods / periods with demand; null without any demand
 * @param squaredVariation CV²: (sample standard deviation, n − 1, of the demand sizes / their
 *     mean)²; null with fewer than two demands
 */
public record Pattern(@Nullable Double meanInterval, @Nullable Double squaredVariation) {

  private static final double INTERVAL_CUT = 1.32;
  private static final double VARIATION_CUT = 0.49;

  /** The four corners of the plane of interval and variation. */
  public enum Kind {
    /** Often and even. */
    SMOOTH,
    /** Rarely and even. */
    INTERMITTENT,
    /** Often and uneven. */
    ERRATIC,
    /** Rarely and uneven. */
    LUMPY
  }

  /**
   * @param series demand of each period, 0 or more
   */
  public static Pattern of(double... series) {
    Arrays.stream(series).forEach(y -> Check.notNegative("series", y));
    double[] sizes = Arrays.stream(series).filter(y -> y > 0).toArray();
    if (sizes.length == 0) {
      return new Pattern(null, null);
    }
    double interval = (double) series.length / sizes.length;
    if (sizes.length == 1) {
      return new Pattern(interval, null);
    }
    double mean = Arrays.stream(sizes).sum() / sizes.length;
    double squares = Arrays.stream(sizes).map(y -> (y / mean - 1) * (y / mean - 1)).sum();
    return new Pattern(interval, squares / (sizes.length - 1));
  }

  /** The kind; empty where a figure is missing. On a cut-off it is the calmer kind. */
  public Optional<Kind> kind() {
    if (meanInterval == null || squaredVariation == null) {
      return Optional.empty();
    }
    boolean rare = meanInterval > INTERVAL_CUT;
    boolean uneven = squaredVariation > VARIATION_CUT;
    return Optional.of(
        rare ? (uneven ? Kind.LUMPY : Kind.INTERMITTENT) : (uneven ? Kind.ERRATIC : Kind.SMOOTH));
  }
}
