package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.numbers.core.Sum;

/** How many packs one taking takes: sizes of 1 to 1 000 packs, each with its probability. */
public final class BatchSizes {

  /** Always one pack. */
  public static final BatchSizes SINGLE = new BatchSizes(new int[] {1}, new double[] {1});

  private static final int LARGEST = 1_000;

  private final int[] packs;
  private final double[] probability;

  private BatchSizes(int[] packs, double[] probability) {
    this.packs = packs;
    this.probability = probability;
  }

  /**
   * @param probabilities probability by size; must sum to 1 within 1e-9
   * @throws BadInput if a size is not 1 to 1 000 or the probabilities do not sum to 1
   */
  public static BatchSizes of(Map<Integer, Double> probabilities) {
    TreeMap<Integer, Double> sorted = new TreeMap<>(probabilities);
    sorted.keySet().forEach(size -> Check.within("packs", size, 1, LARGEST));
    sorted.values().forEach(p -> Check.probability("probability", p));
    double sum =
        Sum.of(sorted.values().stream().mapToDouble(Double::doubleValue).toArray()).getAsDouble();
    if (!(Math.abs(sum - 1) <= 1e-9)) {
      throw new BadInput(
          "probability", "The probabilities of the batch sizes sum to " + sum + ", but must to 1.");
    }
    sorted.values().removeIf(p -> p == 0);
    return new BatchSizes(
        sorted.keySet().stream().mapToInt(Integer::intValue).toArray(),
        sorted.values().stream().mapToDouble(p -> p / sum).toArray());
  }

  /**
   * The sizes seen in the past, each as often as it was seen.
   *
   * @param seen sizes of 1 to 1 000 packs
   * @return {@link #SINGLE} if none was seen
   */
  public static BatchSizes observed(List<Integer> seen) {
    if (seen.isEmpty()) {
      return SINGLE;
    }
    Map<Integer, Integer> times = new TreeMap<>();
    seen.forEach(size -> times.merge(size, 1, Integer::sum));
    Map<Integer, Double> share = new TreeMap<>();
    times.forEach((size, n) -> share.put(size, n / (double) seen.size()));
    return of(share);
  }

  /** Mean size. */
  public double mean() {
    return moment(1);
  }

  /** Mean of the squared size. */
  public double meanSquare() {
    return moment(2);
  }

  /** Number of distinct sizes. */
  int count() {
    return packs.length;
  }

  int packs(int i) {
    return packs[i];
  }

  double probability(int i) {
    return probability[i];
  }

  int largest() {
    return packs[packs.length - 1];
  }

  private double moment(int order) {
    double sum = 0;
    for (int i = 0; i < packs.length; i++) {
      sum += Math.pow(packs[i], order) * probability[i];
    }
    return sum;
  }
}
