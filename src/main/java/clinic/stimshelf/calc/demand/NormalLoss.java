package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.Check;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * The unit normal loss function {@code G(z) = E[(Z − z)+] = φ(z) − z (1 − Φ(z))} and its inverse.
 *
 * <p>For z of 2 and more it is {@code φ(z) K/(z + K)} with Laplace's continued fraction {@code K =
 * 1/(z + 2/(z + 3/(z + …)))} for Mills' ratio, which does not subtract; for negative z it is {@code
 * G(−z) − z}.
 */
public final class NormalLoss {

  private static final NormalDistribution UNIT = NormalDistribution.of(0, 1);
  private static final int TERMS = 300;

  /** There G is below the smallest double. */
  private static final double LARGEST_Z = 38.5;

  private NormalLoss() {}

  /** {@code G(z)} for any finite z. */
  public static double value(double z) {
    if (z < 0) {
      return value(-z) - z;
    }
    if (z < 2) {
      return UNIT.density(z) - z * UNIT.survivalProbability(z);
    }
    double k = 0;
    for (int n = TERMS; n >= 1; n--) {
      k = n / (z + k);
    }
    // k = 1/(z + 2/(z + …)), so Mills' ratio is 1/(z + k).
    return UNIT.density(z) * k / (z + k);
  }

  /**
   * The z with {@code G(z) = loss}.
   *
   * @param loss above 0 and finite
   */
  public static double inverse(double loss) {
    Check.positive("loss", loss);
    double low = -loss;
    double high = LARGEST_Z;
    double z = loss > 0.4 ? low : Math.min(high, Math.sqrt(-2 * Math.log(loss)));
    for (int step = 0; step < 200; step++) {
      double g = value(z);
      if (g > loss) {
        low = z;
      } else {
        high = z;
      }
      // Newton on ln G, which is nearly straight in its tail; a step out of the bracket is halved.
      double next = z + Math.log(g / loss) * g / UNIT.survivalProbability(z);
      if (!(next > low && next < high)) {
        next = low + (high - low) / 2;
      }
      if (Math.abs(next - z) <= 1e-15 * Math.abs(z) || next == z) {
        return next;
      }
      z = next;
    }
    return z;
  }
}
