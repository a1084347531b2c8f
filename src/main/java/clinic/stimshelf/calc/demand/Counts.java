package clinic.stimshelf.calc.demand;

/**
 * A distribution of whole packs 0, 1, 2, … asked for over some time.
 *
 * <p>Upper tails are summed where they lie, never taken as one minus the rest, so that a tail of
 * 1e-300 keeps its digits.
 */
public interface Counts {

  /** How little a level may be missed to count as met: rounding, not service. */
  double TOLERANCE = 1e-12;

  /** The mean, in packs. */
  double mean();

  /** The variance, in packs squared. */
  double variance();

  /** {@code P(D <= k)}; 0 for a negative k. */
  double atMost(long k);

  /** {@code P(D > k)}; 1 for a negative k. */
  double above(long k);

  /**
   * {@code E[(D - k)+]}: the packs that are short on average when k are there.
   *
   * @param k 0 or more
   */
  double shortfall(long k);

  /** The standard deviation, in packs. */
  default double sd() {
    return Math.sqrt(variance());
  }

  /**
   * The smallest whole number k of 0 or more with {@code P(D <= k) >= level}; a level missed by
   * less than {@link #TOLERANCE} counts as met.
   *
   * @param level from 0 to 1, 1 excluded
   */
  default long quantile(double level) {
    return Levels.smallest(k -> atMost(k) >= level - TOLERANCE);
  }
}
