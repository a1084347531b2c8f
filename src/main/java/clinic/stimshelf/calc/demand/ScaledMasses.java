package clinic.stimshelf.calc.demand;

import java.util.Arrays;

/**
 * Masses in the order of a recursion, up to a common factor: the recursion starts from 1 instead of
 * {@code e^-10000}, is scaled down by a power of two whenever it grows large, and is scaled to sum
 * 1 at the end, so that neither overflow nor underflow loses a mass that matters.
 */
final class ScaledMasses {

  private static final double LARGE = 0x1p800;
  private static final double SMALL = 0x1p-800;

  private double[] values = new double[64];
  private int size;
  private double sum;

  /** The mass appended i-th, in the present scale. */
  double get(int i) {
    return values[i];
  }

  /** {@code Σ weight[i] get(size − back[i])} over the {@code back} that reach; ascending. */
  double dotBack(int[] back, double[] weight) {
    double[] local = values;
    int at = size;
    double dot = 0;
    for (int i = 0; i < back.length && back[i] <= at; i++) {
      dot += weight[i] * local[at - back[i]];
    }
    return dot;
  }

  /** Sum of all masses appended, in the present scale. */
  double sum() {
    return sum;
  }

  void append(double value) {
    if (size == values.length) {
      values = Arrays.copyOf(values, 2 * size);
    }
    values[size++] = value;
    sum += value;
    if (sum > LARGE) {
      for (int i = 0; i < size; i++) {
        values[i] *= SMALL;
      }
      sum *= SMALL;
    }
  }

  Pmf toPmf() {
    return Pmf.normalised(Arrays.copyOf(values, size));
  }
}
