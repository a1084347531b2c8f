package clinic.stimshelf.calc.wear;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.util.Collection;
import java.util.Optional;
import org.apache.commons.numbers.gamma.Gamma;
import org.apache.commons.numbers.gamma.RegularizedGamma;

/**
 * A Weibull distribution of lives: {@code S(t) = exp(−(t/scale)^shape)}. A shape above 1 means that
 * things wear, below 1 that the weak ones go early.
 *
 * @param shape above 0
 * @param scale the time that a share of 1/e outlasts, above 0
 */
public record Weibull(double shape, double scale) {

  private static final int LEAST_ENDED = 3;

  public Weibull {
    Check.positive("shape", shape);
    Check.positive("scale", scale);
  }

  /**
   * A fit by maximum likelihood.
   *
   * @param weibull the distribution
   * @param logLikelihood {@code Σ log f(ended) + Σ log S(going on)}, natural, no constant dropped
   * @param standardErrorLogShape of the natural logarithm of the shape, from the observed
   *     information
   * @param standardErrorLogScale of the natural logarithm of the scale
   * @param covariance of both logarithms
   * @param lives how many were seen
   * @param ended how many of them ended
   */
  public record Fit(
      Weibull weibull,
      double logLikelihood,
      double standardErrorLogShape,
      double standardErrorLogScale,
      double covariance,
      long lives,
      long ended) {

    /** Akaike's criterion, {@code 4 − 2 logLikelihood}: lower fits better. */
    public double aic() {
      return 4 - 2 * logLikelihood;
    }
  }

  /**
   * Fits by maximum likelihood with right-censoring. The shape k solves {@code Σ t^k ln t / Σ t^k −
   * 1/k = mean of ln t over those that ended}, sums over all lives (Cohen 1965,
   * <i>Technometrics</i> 7:579-588; from memory); the left side rises in k, so there is one
   * solution. The scale is {@code (Σ t^k / ended)^(1/k)}.
   *
   * @return empty with fewer than 3 ended, where all that ended did so at the same time (the shape
   *     would be endless), or where one ended at 0 (the likelihood would)
   * @throws BadInput if the scale is too large for a number
   */
  public static Optional<Fit> fit(Collection<Life> lives) {
    Sample sample = Sample.of(lives);
    if (sample.ended < LEAST_ENDED || !sample.spread || sample.endedAtZero) {
      return Optional.empty();
    }
    double shape = sample.solveShape();
    double logScale = sample.logLongest + Math.log(sample.sum(shape, 0) / sample.ended) / shape;
    double scale = Math.exp(logScale);
    if (!(scale > 0 && scale <= Double.MAX_VALUE)) {
      throw new BadInput(
          "observations", "So few of so many ended that the fitted life is not a finite number.");
    }
    double r = sample.ended;
    double logLikelihood =
        r * Math.log(shape)
            - r * shape * (logScale - sample.logLongest)
            + (shape - 1) * sample.sumLogEnded
            - r * sample.logLongest
            - r;
    // Second derivatives in (ln scale, ln shape) at the maximum, where Σ z = r, z =
    // (t/scale)^shape.
    double zu = sample.momentOfLog(shape, logScale, 1);
    double zuu = sample.momentOfLog(shape, logScale, 2);
    double scaleScale = shape * shape * r;
    double scaleShape = -shape * zu;
    double shapeShape = r + zuu;
    double determinant = scaleScale * shapeShape - scaleShape * scaleShape;
    return Optional.of(
        new Fit(
            new Weibull(shape, scale),
            logLikelihood,
            Math.sqrt(scaleScale / determinant),
            Math.sqrt(shapeShape / determinant),
            -scaleShape / determinant,
            sample.lives,
            sample.ended));
  }

  /** {@code S(t)}: the share that lasts longer than t, t of 0 or more. */
  public double surviving(double t) {
    return Math.exp(-power(t));
  }

  /** The rate at which those still going on end at t, t above 0. */
  public double hazard(double t) {
    Check.positive("t", t);
    return shape / scale * Math.pow(t / scale, shape - 1);
  }

  /**
   * The time that a share outlasts: {@code scale (−ln reliability)^(1/shape)}.
   *
   * @param reliability strictly between 0 and 1
   * @throws BadInput if the time is too large for a number
   */
  public double outlastedBy(double reliability) {
    Check.insideUnit("planningReliability", reliability);
    double time = scale * Math.pow(-Math.log(reliability), 1 / shape);
    if (!(time <= Double.MAX_VALUE)) {
      throw new BadInput(
          "planningReliability", "The time that this share outlasts is not a finite number.");
    }
    return time;
  }

  /** Whole uses that a share outlasts, rounded down: what a plan may count on. */
  public double planningUses(double reliability) {
    return Math.floor(outlastedBy(reliability));
  }

  /** Mean life: {@code scale Γ(1 + 1/shape)}. */
  public double mean() {
    return scale * Gamma.value(1 + 1 / shape);
  }

  /** Standard deviation of lives. */
  public double sd() {
    double g = Gamma.value(1 + 1 / shape);
    return scale * Math.sqrt(Gamma.value(1 + 2 / shape) - g * g);
  }

  /**
   * The chance that what has lasted longer than {@code sofar} ends within a further while.
   *
   * @param sofar 0 or more
   * @param further 0 or more
   */
  public double endsWithin(double sofar, double further) {
    Check.notNegative("further", further);
    return -Math.expm1(power(sofar) - power(sofar + further));
  }

  /**
   * Mean further life of what has lasted longer than t: {@code scale/shape e^x Γ(1/shape, x)},
   * {@code x = (t/scale)^shape} (after Guess and Proschan 1985). Far out the product is taken from
   * the continued fraction of the incomplete gamma function, where its factors leave the range of
   * numbers.
   *
   * @param t 0 or more
   */
  public double meanFurther(double t) {
    double a = 1 / shape;
    double x = power(t);
    if (x <= a + 1) {
      return scale * a * Math.exp(x) * Gamma.value(a) * RegularizedGamma.Q.value(a, x);
    }
    return scale * a * Math.pow(x, a) * scaledUpperGamma(a, x);
  }

  /** {@code Γ(a, x) e^x x^(−a)} for x above a + 1, by Legendre's continued fraction. */
  private static double scaledUpperGamma(double a, double x) {
    double tail = 0;
    for (int n = 400; n >= 1; n--) {
      tail = n * (n - a) / (x + 2 * n + 1 - a - tail);
    }
    return 1 / (x + 1 - a - tail);
  }

  private double power(double t) {
    Check.notNegative("t", t);
    return Math.pow(t / scale, shape);
  }
}
