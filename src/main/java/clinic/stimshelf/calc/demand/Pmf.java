package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.numbers.core.Sum;

/**
 * A probability mass function on 0 … n, immutable.
 *
 * <p>Convolution, mixture and thinning only add and multiply numbers that are not negative, so
 * every mass keeps its relative accuracy however small it is. A distribution without an upper end
 * is cut where what lies beyond is far below rounding; each factory says where.
 */
public final class Pmf implements Counts {

  /** All mass at 0. */
  public static final Pmf ZERO = new Pmf(new double[] {1});

  private static final double SUM_TOLERANCE = 1e-9;

  private final double[] mass;

  private Pmf(double[] mass) {
    this.mass = mass;
  }

  /**
   * @param mass {@code mass[k] = P(D = k)}; must sum to 1 within 1e-9 and is kept as given
   * @throws BadInput if a mass is not a probability or they do not sum to 1
   */
  public static Pmf of(double... mass) {
    if (mass.length == 0) {
      throw new BadInput("mass", "A distribution needs at least one probability.");
    }
    Arrays.stream(mass).forEach(p -> Check.probability("probability", p));
    double sum = Sum.of(mass).getAsDouble();
    if (!(Math.abs(sum - 1) <= SUM_TOLERANCE)) {
      throw new BadInput("probability", "The probabilities sum to " + sum + ", but must sum to 1.");
    }
    return trimmed(mass.clone());
  }

  /** All mass at one number of packs, 0 or more. */
  public static Pmf certain(int packs) {
    return maybe(packs, 1);
  }

  /**
   * So many packs with a probability, else none.
   *
   * @param packs 0 or more
   * @param probability 0 to 1
   */
  public static Pmf maybe(int packs, double probability) {
    Check.within("packs", packs, 0, 10_000_000);
    Check.probability("probability", probability);
    double[] mass = new double[packs + 1];
    mass[0] = 1 - probability;
    mass[packs] += probability;
    return trimmed(mass);
  }

  /** Masses that need not sum to 1, scaled so that they do. */
  static Pmf normalised(double[] weights) {
    double sum = Sum.of(weights).getAsDouble();
    double[] mass = new double[weights.length];
    for (int k = 0; k < mass.length; k++) {
      mass[k] = weights[k] / sum;
    }
    return trimmed(mass);
  }

  private static Pmf trimmed(double[] mass) {
    int length = mass.length;
    while (length > 1 && mass[length - 1] == 0) {
      length--;
    }
    return new Pmf(length == mass.length ? mass : Arrays.copyOf(mass, length));
  }

  /** {@code P(D = k)}; 0 outside the support. */
  public double mass(long k) {
    return k >= 0 && k < mass.length ? mass[(int) k] : 0;
  }

  /** The largest number of packs that this distribution holds. */
  public int max() {
    return mass.length - 1;
  }

  @Override
  public double mean() {
    Sum sum = Sum.create();
    for (int k = 1; k < mass.length; k++) {
      sum.add(k * mass[k]);
    }
    return sum.getAsDouble();
  }

  @Override
  public double variance() {
    double mean = mean();
    Sum sum = Sum.create();
    for (int k = 0; k < mass.length; k++) {
      sum.add((k - mean) * (k - mean) * mass[k]);
    }
    return sum.getAsDouble();
  }

  @Override
  public double atMost(long k) {
    Sum sum = Sum.create();
    for (int i = 0; i <= Math.min(k, max()); i++) {
      sum.add(mass[i]);
    }
    return Math.min(1, sum.getAsDouble());
  }

  @Override
  public double above(long k) {
    if (k < 0) {
      return 1;
    }
    double tail = 0;
    for (int i = max(); i > k; i--) {
      tail += mass[i];
    }
    return Math.min(1, tail);
  }

  @Override
  public double shortfall(long k) {
    double tail = 0;
    for (int i = max(); i > k; i--) {
      tail += (i - k) * mass[i];
    }
    return tail;
  }

  /** The distribution of the sum of this and an independent other. */
  public Pmf convolve(Pmf other) {
    double[] few = mass.length <= other.mass.length ? mass : other.mass;
    double[] many = few == mass ? other.mass : mass;
    double[] sum = new double[few.length + many.length - 1];
    for (int i = 0; i < few.length; i++) {
      double p = few[i];
      if (p != 0) {
        for (int j = 0; j < many.length; j++) {
          sum[i + j] += p * many[j];
        }
      }
    }
    return trimmed(sum);
  }

  /** The distribution of the sum of n independent copies, n of 0 or more. */
  public Pmf times(int n) {
    Check.within("n", n, 0, 1_000_000);
    Pmf sum = ZERO;
    Pmf power = this;
    for (int left = n; left > 0; left >>= 1) {
      sum = (left & 1) == 1 ? sum.convolve(power) : sum;
      power = left > 1 ? power.convolve(power) : power;
    }
    return sum;
  }

  /**
   * Each pack is kept with the probability, independently: binomial thinning.
   *
   * @param probability 0 to 1
   */
  public Pmf thin(double probability) {
    Check.probability("probability", probability);
    double lost = 1 - probability;
    double[] kept = new double[mass.length];
    for (int k = max(); k >= 0; k--) {
      for (int j = max() - k; j >= 1; j--) {
        kept[j] = lost * kept[j] + probability * kept[j - 1];
      }
      kept[0] = lost * kept[0] + mass[k];
    }
    return trimmed(kept);
  }

  /**
   * With probability {@code weights[i]} the i-th distribution holds.
   *
   * @throws BadInput if the weights do not sum to 1 or their number differs
   */
  public static Pmf mixture(double[] weights, List<Pmf> parts) {
    if (weights.length != parts.size()) {
      throw new BadInput("weights", "There must be one weight for each distribution.");
    }
    Pmf.of(weights);
    double[] mixed = new double[parts.stream().mapToInt(Pmf::max).max().orElse(0) + 1];
    for (int i = 0; i < weights.length; i++) {
      double[] part = parts.get(i).mass;
      for (int k = 0; k < part.length; k++) {
        mixed[k] += weights[i] * part[k];
      }
    }
    return trimmed(mixed);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Pmf that && Arrays.equals(mass, that.mass);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(mass);
  }

  @Override
  public String toString() {
    return mass.length <= 12 ? Arrays.toString(mass) : "Pmf on 0.." + max() + ", mean " + mean();
  }
}
