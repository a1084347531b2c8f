package clinic.stimshelf.calc.wear;

import clinic.stimshelf.calc.Check;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * The product-limit estimate of how long something lasts when some lives were not seen to their end
 * (Kaplan and Meier 1958, <i>J Am Stat Assoc</i> 53:457-481): {@code S(t) = Π (1 − d/n)} over the
 * times up to t, with d lives ending out of n still going on.
 *
 * <p>At equal times ends come before censorings. The standard error is Greenwood's {@code S sqrt(Σ
 * d/(n (n − d)))}. It assumes that being lost from sight says nothing about how long a life would
 * have lasted.
 *
 * @param points one for each distinct time with at least one end, ascending; empty if no life ended
 * @param lives how many lives were seen
 * @param longest the longest time seen, ended or not; 0 without lives
 */
public record ProductLimit(List<Point> points, long lives, double longest) {

  private static final double TOLERANCE = 1e-12;

  /**
   * A step of the curve.
   *
   * @param time when lives ended
   * @param atRisk lives still going on just before
   * @param ended lives that ended
   * @param surviving share that lasts longer than this time
   * @param standardError Greenwood's; null where the share is 0
   */
  public record Point(
      double time, long atRisk, long ended, double surviving, @Nullable Double standardError) {}

  public ProductLimit {
    points = List.copyOf(points);
  }

  /** The estimate from any number of lives, in any order. */
  public static ProductLimit of(Collection<Life> lives) {
    List<Life> ascending = new ArrayList<>(lives);
    ascending.sort(Comparator.comparingDouble(Life::time));
    long atRisk = ascending.stream().mapToLong(Life::count).sum();
    long all = atRisk;
    List<Point> points = new ArrayList<>();
    double surviving = 1;
    double greenwood = 0;
    for (int i = 0; i < ascending.size(); ) {
      double time = ascending.get(i).time();
      long ended = 0;
      long gone = 0;
      for (; i < ascending.size() && ascending.get(i).time() == time; i++) {
        Life life = ascending.get(i);
        gone += life.count();
        ended += life.ended() ? life.count() : 0;
      }
      if (ended > 0) {
        long left = atRisk - ended;
        surviving *= (double) left / atRisk;
        greenwood += left == 0 ? 0 : (double) ended / atRisk / left;
        points.add(
            new Point(
                time,
                atRisk,
                ended,
                surviving,
                left == 0 ? null : (Double) (surviving * Math.sqrt(greenwood))));
      }
      atRisk -= gone;
    }
    double longest = ascending.isEmpty() ? 0 : ascending.get(ascending.size() - 1).time();
    return new ProductLimit(points, all, longest);
  }

  /** {@code S(t)}: the share that lasts longer than the time; 1 before the first end. */
  public double surviving(double time) {
    int low = 0;
    int high = points.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (points.get(middle).time() <= time) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low == 0 ? 1 : points.get(low - 1).surviving();
  }

  /** The first time with {@code S(t) <= 1/2}, compared within 1e-12; empty if it is not reached. */
  public OptionalDouble median() {
    return quantile(0.5);
  }

  /**
   * The first time by which at least a share p has ended: {@code S(t) <= 1 − p}, compared within
   * 1e-12.
   *
   * @param p strictly between 0 and 1
   * @return empty if so many were not seen to end
   */
  public OptionalDouble quantile(double p) {
    Check.insideUnit("p", p);
    return points.stream()
        .filter(point -> point.surviving() <= 1 - p + TOLERANCE)
        .mapToDouble(Point::time)
        .findFirst();
  }

  /**
   * The chance that a life that has lasted longer than {@code sofar} ends within a further while:
   * {@code 1 − S(sofar + further)/S(sofar)}.
   *
   * @param sofar 0 or more
   * @param further 0 or more
   * @return empty where no life of the past lasted longer than {@code sofar}, so that nothing is
   *     known
   */
  public OptionalDouble endsWithin(double sofar, double further) {
    Check.notNegative("sofar", sofar);
    Check.notNegative("further", further);
    double now = surviving(sofar);
    return now > 0
        ? OptionalDouble.of(1 - surviving(sofar + further) / now)
        : OptionalDouble.empty();
  }

  /**
   * Mean further time of a life that has lasted longer than {@code sofar}, counted up to a horizon:
   * {@code ∫ S(u) du / S(sofar)} from {@code sofar} to the horizon. With the horizon at or beyond
   * the longest life and that one ended, it is the mean residual life.
   *
   * @param sofar 0 or more
   * @param horizon {@code sofar} or more
   * @return empty where no life of the past lasted longer than {@code sofar}
   */
  public OptionalDouble meanFurther(double sofar, double horizon) {
    Check.notNegative("sofar", sofar);
    Check.within("horizon", horizon, sofar, Double.MAX_VALUE);
    double now = surviving(sofar);
    if (!(now > 0)) {
      return OptionalDouble.empty();
    }
    double area = 0;
    double from = sofar;
    double height = now;
    for (Point point : points) {
      if (point.time() > sofar && point.time() < horizon) {
        area += height * (point.time() - from);
        from = point.time();
        height = point.surviving();
      }
    }
    return OptionalDouble.of((area + height * (horizon - from)) / now);
  }
}
