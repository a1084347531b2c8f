package clinic.stimshelf.calc.pool;

import clinic.stimshelf.calc.Check;
import java.util.Arrays;
import java.util.List;

/**
 * How sure it is that a unit is there for a request: units free now and units that may be back,
 * less the requests ahead.
 *
 * @param chance {@code P(freeNow + back >= ahead + 1)}
 * @param distribution {@code P(0 back), P(1 back), …}, one entry more than there are units away
 */
public record Availability(double chance, List<Double> distribution) {

  public Availability {
    distribution = List.copyOf(distribution);
  }

  /**
   * Units come back independently of one another: the exact Poisson-binomial distribution, unit by
   * unit, with the tail summed where it lies.
   *
   * @param freeNow 0 to 1e9
   * @param ahead requests that come first, 0 to 1e9
   * @param chancesBack each unit's chance to be back and ready, 0 to 1
   */
  public static Availability of(int freeNow, int ahead, List<Double> chancesBack) {
    Check.within("freeNow", freeNow, 0, 1_000_000_000);
    Check.within("ahead", ahead, 0, 1_000_000_000);
    double[] chances =
        chancesBack.stream().mapToDouble(p -> Check.probability("chancesBack", p)).toArray();
    double[] mass = new double[chances.length + 1];
    mass[0] = 1;
    for (int i = 0; i < chances.length; i++) {
      add(mass, i + 1, chances[i]);
    }
    long needed = (long) ahead + 1 - freeNow;
    double chance = 0;
    for (int k = mass.length - 1; k >= Math.max(0, needed); k--) {
      chance += mass[k];
    }
    return new Availability(
        needed <= 0 ? 1 : Math.min(1, chance), Arrays.stream(mass).boxed().toList());
  }

  /** The chance that at least so many are back; only as much is laid out as is needed. */
  static double atLeast(int needed, double[] chances) {
    if (needed <= 0) {
      return 1;
    }
    if (needed > chances.length) {
      return 0;
    }
    double[] mass = new double[needed];
    mass[0] = 1;
    double reached = 0;
    for (int i = 0; i < chances.length; i++) {
      reached += mass[needed - 1] * chances[i];
      add(mass, Math.min(i + 1, needed - 1), chances[i]);
    }
    return Math.min(1, reached);
  }

  private static void add(double[] mass, int top, double p) {
    for (int k = top; k >= 1; k--) {
      mass[k] = mass[k] * (1 - p) + mass[k - 1] * p;
    }
    mass[0] *= 1 - p;
  }
}
