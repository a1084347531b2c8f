package clinic.stimshelf.calc.demand;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Arrays;

/**
 * Several compound Poisson distributions of the same batch sizes, laid out side by side and mixed
 * as they come: what {@link CompoundPoisson#over} does for one time, for many times in one pass.
 *
 * <p>Panjer's recursion runs in one lane for each time, so that the inner loop goes over lanes that
 * lie next to one another. Each lane starts from 1 instead of {@code e^−λ} and is scaled down by a
 * power of two whenever it grows large; {@code e^−λ} is taken as a factor and a power of two, which
 * neither overflows nor loses digits. Only as many rows are kept as the largest batch reaches back.
 */
final class BatchLanes {

  private static final double LARGE = 0x1p800;
  private static final double SMALL = 0x1p-800;
  private static final int DOWN = 800;

  /** ln 2 in two parts; whole multiples of the first up to 2^20 are exact. */
  private static final double LN2_HIGH = 0x1.62e42feep-1;

  private static final double LN2_LOW = 0x1.a39ef35793c76p-33;

  /** Below this power of two not even the largest value of a lane makes a number. */
  private static final int VANISHED = -1_900;

  private final double[] arrivals;
  private final double[] weights;
  private final int[] packs;
  private final double[] share;
  private final int reach;
  private final double meanSize;
  private final double matters;

  private final int lanes;
  private final double[][] window;
  private final double[] sum;
  private final double[] row;
  private final double[] factor;
  private final double[] halfPower;
  private final double[] otherHalf;
  private final int[] exponent;

  /**
   * @param arrivals mean takings in each lane, descending
   * @param weights of the lanes in the mixture, summing to 1
   * @param matters the smallest number of packs that matters, at most 1
   */
  BatchLanes(double[] arrivals, double[] weights, BatchSizes sizes, double matters) {
    this.arrivals = arrivals.clone();
    this.weights = weights.clone();
    this.matters = matters;
    lanes = arrivals.length;
    reach = sizes.largest();
    meanSize = sizes.mean();
    packs = new int[sizes.count()];
    share = new double[packs.length];
    for (int j = 0; j < packs.length; j++) {
      packs[j] = sizes.packs(j);
      share[j] = packs[j] * sizes.probability(j);
    }
    double excess = excess();
    window = new double[reach][lanes];
    sum = new double[lanes];
    row = new double[lanes];
    factor = new double[lanes];
    exponent = new int[lanes];
    halfPower = new double[lanes];
    otherHalf = new double[lanes];
    for (int i = 0; i < lanes; i++) {
      double n = Math.rint(arrivals[i] / (LN2_HIGH + LN2_LOW));
      factor[i] = Math.exp(-(arrivals[i] - n * LN2_HIGH - n * LN2_LOW + arrivals[i] * excess));
      exponent[i] = -(int) n;
      splitPower(i);
    }
  }

  /**
   * By how much the shares, as they are rounded, sum to more than 1. Thousands of takings would
   * carry it into the tenth digit.
   */
  private double excess() {
    BigDecimal sum = BigDecimal.ONE.negate();
    for (int j = 0; j < packs.length; j++) {
      sum =
          sum.add(
              new BigDecimal(share[j])
                  .divide(BigDecimal.valueOf(packs[j]), MathContext.DECIMAL128));
    }
    return sum.doubleValue();
  }

  Pmf mixed() {
    double[] mixed = new double[1024];
    Arrays.fill(row, 1);
    mixed[0] = keep(0, lanes);
    int active = lanes;
    int s = 0;
    while (active > 0) {
      s++;
      next(s, active);
      if (s == mixed.length) {
        mixed = Arrays.copyOf(mixed, 2 * s);
      }
      mixed[s] = keep(s, active);
      if (s % reach == 0) {
        while (active > 0 && isOver(active - 1, s)) {
          active--;
        }
      }
    }
    return Pmf.normalised(Arrays.copyOf(mixed, s + 1));
  }

  /** The masses of the next number of packs, by Panjer's recursion. */
  private void next(int s, int active) {
    Arrays.fill(row, 0, active, 0);
    int last = 0;
    while (last < packs.length && packs[last] <= s) {
      last++;
    }
    int j = 0;
    for (; j + 3 < last; j += 4) {
      double[] a = back(s, j);
      double[] b = back(s, j + 1);
      double[] c = back(s, j + 2);
      double[] d = back(s, j + 3);
      add(row, active, a, share[j], b, share[j + 1], c, share[j + 2], d, share[j + 3]);
    }
    for (; j < last; j++) {
      add(row, active, back(s, j), share[j]);
    }
    for (int i = 0; i < active; i++) {
      row[i] *= arrivals[i] / s;
    }
  }

  private double[] back(int s, int j) {
    return window[(s - packs[j]) % reach];
  }

  // Every array is read at i and nothing else, which is what a virtual machine can do four at once.
  private static void add(double[] row, int active, double[] a, double wa) {
    for (int i = 0; i < active; i++) {
      row[i] += wa * a[i];
    }
  }

  private static void add(
      double[] row,
      int active,
      double[] a,
      double wa,
      double[] b,
      double wb,
      double[] c,
      double wc,
      double[] d,
      double wd) {
    for (int i = 0; i < active; i++) {
      row[i] += (wa * a[i] + wb * b[i]) + (wc * c[i] + wd * d[i]);
    }
  }

  /** Keeps the row for those to come; what it adds to the mixture. */
  private double keep(int s, int active) {
    double[] kept = window[s % reach];
    double mass = 0;
    for (int i = 0; i < active; i++) {
      double value = row[i];
      kept[i] = value;
      sum[i] += value;
      mass += weights[i] * (value * factor[i] * halfPower[i] * otherHalf[i]);
      if (value > LARGE) {
        scaleDown(i);
      }
    }
    return mass;
  }

  private void scaleDown(int lane) {
    for (double[] kept : window) {
      kept[lane] *= SMALL;
    }
    sum[lane] *= SMALL;
    exponent[lane] += DOWN;
    splitPower(lane);
  }

  /** Two powers of two, because one alone may be too small for a number where the mass is not. */
  private void splitPower(int lane) {
    int power = exponent[lane];
    halfPower[lane] = power < VANISHED ? 0 : Math.scalb(1.0, power / 2);
    otherHalf[lane] = power < VANISHED ? 0 : Math.scalb(1.0, power - power / 2);
  }

  private boolean isOver(int lane, int s) {
    if (s < arrivals[lane] * meanSize) {
      return false;
    }
    double largest = 0;
    for (double[] kept : window) {
      largest = Math.max(largest, kept[lane]);
    }
    return !(largest > CompoundPoisson.floor(arrivals[lane], matters) * sum[lane]);
  }
}
