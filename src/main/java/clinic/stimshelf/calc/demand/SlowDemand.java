package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * A forecast of demand that comes in few periods, by exponential smoothing of its parts.
 *
 * <ul>
 *   <li>Croston 1972 (<i>Oper Res Q</i> 23:289-303): the size z of a demand and the interval p
 *       between demands are smoothed at demand periods only; the forecast is z/p. It is biased
 *       upwards.
 *   <li>SBA, Syntetos and Boylan 2005 (<i>Int J Forecasting</i> 21:303-314): Croston's forecast
 *       times (1 − β/2), β the constant of the interval.
 *   <li>TSB, Teunter, Syntetos and Babai 2011 (<i>Eur J Oper Res</i> 214:606-615): instead of the
 *       interval the probability of a demand is smoothed in every period, so that the forecast
 *       sinks while nothing is asked for.
 *   <li>SES: simple smoothing of the series, starting at its first value.
 * </ul>
 *
 * <p>The others start from the first demand and its position, counted from period 0: interval =
 * position, probability = 1/position. Other start values give other numbers.
 *
 * @param fitted an entry for each period, made after the one before; null until defined
 * @param forecast for the period after the last; empty until a demand was seen
 */
public record SlowDemand(List<@Nullable Double> fitted, OptionalDouble forecast) {

  public SlowDemand {
    fitted = Collections.unmodifiableList(new ArrayList<>(fitted));
  }

  /**
   * Croston's method.
   *
   * @param alpha smoothing of the size, 0 to 1
   * @param beta smoothing of the interval, 0 to 1
   * @param series demand of each period, 0 or more, at least one period
   */
  public static SlowDemand croston(double alpha, double beta, double... series) {
    return run(new Intervals(constant("alpha", alpha), constant("beta", beta), 1), series);
  }

  /** Croston's method with the correction of Syntetos and Boylan; arguments as {@link #croston}. */
  public static SlowDemand sba(double alpha, double beta, double... series) {
    constant("beta", beta);
    return run(new Intervals(constant("alpha", alpha), beta, 1 - beta / 2), series);
  }

  /**
   * The method of Teunter, Syntetos and Babai.
   *
   * @param alpha smoothing of the size, 0 to 1
   * @param beta smoothing of the probability, 0 to 1
   * @param series demand of each period, 0 or more, at least one period
   */
  public static SlowDemand tsb(double alpha, double beta, double... series) {
    return run(new Probabilities(constant("alpha", alpha), constant("beta", beta)), series);
  }

  /**
   * As {@link #tsb(double, double, double...)}, but started before the first period from a size and
   * a probability that are believed.
   */
  public static SlowDemand tsbFrom(
      double startSize, double startProbability, double alpha, double beta, double... series) {
    Probabilities state = new Probabilities(constant("alpha", alpha), constant("beta", beta));
    state.size = Check.notNegative("startSize", startSize);
    state.probability = Check.probability("startProbability", startProbability);
    state.started = true;
    return run(state, series);
  }

  /**
   * Simple exponential smoothing.
   *
   * @param alpha 0 to 1
   * @param series demand of each period, 0 or more, at least one period
   */
  public static SlowDemand ses(double alpha, double... series) {
    return run(new Level(constant("alpha", alpha)), series);
  }

  private static double constant(String field, double value) {
    return Check.probability(field, value);
  }

  private static SlowDemand run(Smoother smoother, double... series) {
    if (series.length == 0) {
      throw new BadInput("series", "The series is empty; give at least one period.");
    }
    List<@Nullable Double> fitted = new ArrayList<>(series.length);
    for (int t = 0; t < series.length; t++) {
      fitted.add(smoother.started ? (Double) smoother.forecast() : null);
      smoother.see(Check.notNegative("series", series[t]), t + 1);
    }
    return new SlowDemand(
        fitted, smoother.started ? OptionalDouble.of(smoother.forecast()) : OptionalDouble.empty());
  }

  private abstract static class Smoother {
    boolean started;

    abstract void see(double y, int period);

    abstract double forecast();
  }

  private static final class Intervals extends Smoother {
    private final double alpha;
    private final double beta;
    private final double factor;
    private double size;
    private double interval;
    private int last;

    private Intervals(double alpha, double beta, double factor) {
      this.alpha = alpha;
      this.beta = beta;
      this.factor = factor;
    }

    @Override
    void see(double y, int period) {
      if (y > 0) {
        size = started ? size + alpha * (y - size) : y;
        interval = started ? interval + beta * (period - last - interval) : period;
        last = period;
        started = true;
      }
    }

    @Override
    double forecast() {
      return factor * size / interval;
    }
  }

  private static final class Probabilities extends Smoother {
    private final double alpha;
    private final double beta;
    private double size;
    private double probability;

    private Probabilities(double alpha, double beta) {
      this.alpha = alpha;
      this.beta = beta;
    }

    @Override
    void see(double y, int period) {
      if (started) {
        size += y > 0 ? alpha * (y - size) : 0;
        probability += beta * ((y > 0 ? 1 : 0) - probability);
      } else if (y > 0) {
        size = y;
        probability = 1.0 / period;
        started = true;
      }
    }

    @Override
    double forecast() {
      return size * probability;
    }
  }

  private static final class Level extends Smoother {
    private final double alpha;
    private double level;

    private Level(double alpha) {
      this.alpha = alpha;
    }

    @Override
    void see(double y, int period) {
      level = started ? level + alpha * (y - level) : y;
      started = true;
    }

    @Override
    double forecast() {
      return level;
    }
  }
}
