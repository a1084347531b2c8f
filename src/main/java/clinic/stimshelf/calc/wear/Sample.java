package clinic.stimshelf.calc.wear;

import java.util.Arrays;
import java.util.Collection;

/**
 * Lives as a likelihood sees them: logarithms of the times relative to the longest, so that no
 * power of a time leaves the range of numbers. Lives censored at 0 say nothing and are left out of
 * the sums.
 */
final class Sample {

  private static final int MOST_STEPS = 500;

  private final double[] log;
  private final double[] weight;
  final long lives;
  final long ended;
  final double logLongest;

  /** {@code Σ ln(t / longest)} over those that ended. */
  final double sumLogEnded;

  final boolean spread;
  final boolean endedAtZero;

  private Sample(
      double[] log,
      double[] weight,
      long lives,
      long ended,
      double logLongest,
      double sumLogEnded,
      boolean spread,
      boolean endedAtZero) {
    this.log = log;
    this.weight = weight;
    this.lives = lives;
    this.ended = ended;
    this.logLongest = logLongest;
    this.sumLogEnded = sumLogEnded;
    this.spread = spread;
    this.endedAtZero = endedAtZero;
  }

  static Sample of(Collection<Life> lives) {
    double longest = lives.stream().mapToDouble(Life::time).max().orElse(0);
    double[] log = new double[lives.size()];
    double[] weight = new double[lives.size()];
    int n = 0;
    long all = 0;
    long ended = 0;
    double sumLogEnded = 0;
    double shortestEnd = Double.POSITIVE_INFINITY;
    double longestEnd = Double.NEGATIVE_INFINITY;
    for (Life life : lives) {
      all += life.count();
      if (life.ended()) {
        ended += life.count();
        shortestEnd = Math.min(shortestEnd, life.time());
        longestEnd = Math.max(longestEnd, life.time());
      }
      if (life.time() > 0) {
        log[n] = logRatio(life.time(), longest);
        weight[n] = life.count();
        sumLogEnded += life.ended() ? life.count() * log[n] : 0;
        n++;
      }
    }
    return new Sample(
        Arrays.copyOf(log, n),
        Arrays.copyOf(weight, n),
        all,
        ended,
        Math.log(longest),
        sumLogEnded,
        shortestEnd < longestEnd,
        shortestEnd == 0);
  }

  /** {@code ln(t / longest)}, accurate next to 1 and where the ratio itself would vanish. */
  private static double logRatio(double t, double longest) {
    return t > longest / 2 ? Math.log1p((t - longest) / longest) : Math.log(t) - Math.log(longest);
  }

  /** {@code Σ t^k (ln t)^order} over all lives, times relative to the longest. */
  double sum(double k, int order) {
    double sum = 0;
    for (int i = 0; i < log.length; i++) {
      double factor = order == 0 ? 1 : order == 1 ? log[i] : log[i] * log[i];
      sum += weight[i] * Math.exp(k * log[i]) * factor;
    }
    return sum;
  }

  /** {@code Σ z u^order} with {@code u = shape (ln t − ln scale)} and {@code z = e^u}. */
  double momentOfLog(double shape, double logScale, int order) {
    double sum = 0;
    for (int i = 0; i < log.length; i++) {
      double u = shape * (log[i] + logLongest - logScale);
      sum += weight[i] * Math.exp(u) * (order == 1 ? u : u * u);
    }
    return sum;
  }

  /**
   * The root of the likelihood equation in the shape: Newton within a bracket that only shrinks.
   */
  double solveShape() {
    double target = sumLogEnded / ended;
    double low = 0;
    double high = Double.POSITIVE_INFINITY;
    double k = -1 / target;
    for (int step = 0; step < MOST_STEPS; step++) {
      double s0 = 0;
      double s1 = 0;
      double s2 = 0;
      for (int i = 0; i < log.length; i++) {
        double power = weight[i] * Math.exp(k * log[i]);
        s0 += power;
        s1 += power * log[i];
        s2 += power * log[i] * log[i];
      }
      double mean = s1 / s0;
      double f = mean - 1 / k - target;
      if (f < 0) {
        low = k;
      } else {
        high = k;
      }
      double slope = s2 / s0 - mean * mean + 1 / (k * k);
      double next = k - f / slope;
      if (!(next > low && next < high)) {
        next = high == Double.POSITIVE_INFINITY ? 2 * k : low + (high - low) / 2;
      }
      if (Math.abs(next - k) <= 1e-15 * k) {
        return next;
      }
      k = next;
    }
    return k;
  }
}
