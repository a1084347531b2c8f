package clinic.stimshelf.calc.demand;

import java.util.List;
import java.util.function.ToDoubleFunction;

/** With the probability {@code weights[i]} the i-th distribution holds; weights sum to 1. */
final class Mixture implements Counts {

  private final double[] weights;
  private final List<Counts> parts;

  private Mixture(double[] weights, List<Counts> parts) {
    this.weights = weights;
    this.parts = parts;
  }

  /** One {@link Pmf} where every part is one, else the parts side by side. */
  static Counts of(double[] weights, List<Counts> parts) {
    if (parts.stream().allMatch(Pmf.class::isInstance)) {
      return Pmf.mixture(weights, parts.stream().map(Pmf.class::cast).toList());
    }
    return new Mixture(weights.clone(), List.copyOf(parts));
  }

  @Override
  public double mean() {
    return mix(Counts::mean);
  }

  @Override
  public double variance() {
    double mean = mean();
    return mix(part -> part.variance() + (part.mean() - mean) * (part.mean() - mean));
  }

  @Override
  public double atMost(long k) {
    return mix(part -> part.atMost(k));
  }

  @Override
  public double above(long k) {
    return mix(part -> part.above(k));
  }

  @Override
  public double shortfall(long k) {
    return mix(part -> part.shortfall(k));
  }

  private double mix(ToDoubleFunction<Counts> figure) {
    double sum = 0;
    for (int i = 0; i < weights.length; i++) {
      sum += weights[i] * figure.applyAsDouble(parts.get(i));
    }
    return sum;
  }
}
