package clinic.stimshelf.review;

import clinic.stimshelf.calc.pool.LendingPool;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;

/**
 * Bars side by side, the number over each, in a drawing of 360 by 150.
 *
 * @param level height of a line across, or {@code null}
 * @param words the drawing for who does not see it
 */
record PoolChart(List<Bar> bars, String level, String words) {
  private static final double LEFT = 8;
  private static final double RIGHT = 352;
  private static final double TOP = 24;
  private static final double BOTTOM = 126;
  private static final double SHARE = 0.62;

  /**
   * @param kind class of its look
   * @param middle where its words stand
   * @param above the number over it
   * @param below its name under it
   */
  record Bar(
      String kind,
      String x,
      String y,
      String width,
      String height,
      String middle,
      String numberAt,
      String above,
      String below) {}

  private record Scale(double most, int bars) {
    double y(double value) {
      return BOTTOM - (BOTTOM - TOP) * value / most;
    }
  }

  /** Requests of 100 that find no unit, by units owned; what is owned now is filled. */
  static PoolChart turnedAway(PoolView.OfKind kind, double target) {
    List<LendingPool.Point> around = kind.around();
    int own = kind.lending().units();
    return draw(
        around,
        one -> 100 * one.turnedAway(),
        one -> Amounts.of100(one.turnedAway()),
        one -> one.units() == own ? one.units() + " now" : String.valueOf(one.units()),
        one -> one.units() == own ? "have" : "pad",
        100 * target,
        "Requests of 100 that find no unit, by units owned. With the "
            + own
            + " owned now: "
            + Amounts.of100(kind.pool().turnedAway()));
  }

  static PoolChart begun(PoolView.OfKind kind) {
    return draw(
        kind.months(),
        PoolView.Month::begun,
        one -> String.valueOf(one.begun()),
        PoolView.Month::shortly,
        one -> "pad",
        null,
        "Loans begun, month by month. The table has the same numbers.");
  }

  static PoolChart away(PoolView.OfKind kind) {
    int owned =
        kind.months().stream().mapToInt(PoolView.Month::owned).max().orElse(kind.lending().units());
    return draw(
        kind.months(),
        PoolView.Month::away,
        one -> String.format(Locale.US, "%.1f", one.away()),
        PoolView.Month::shortly,
        one -> "have",
        (double) owned,
        "Units away on average, month by month, of " + owned + " owned. The table has the same.");
  }

  private static <T> PoolChart draw(
      List<T> all,
      ToDoubleFunction<T> value,
      Function<T, String> above,
      Function<T, String> below,
      Function<T, String> kind,
      Double level,
      String words) {
    double most = Math.max(level == null ? 0 : level, 1e-9);
    for (T one : all) {
      most = Math.max(most, value.applyAsDouble(one));
    }
    Scale scale = new Scale(most, all.size());
    double step = (RIGHT - LEFT) / Math.max(1, all.size());
    List<Bar> bars = new ArrayList<>();
    for (int i = 0; i < all.size(); i++) {
      T one = all.get(i);
      double x = LEFT + i * step + step * (1 - SHARE) / 2;
      double y = scale.y(value.applyAsDouble(one));
      bars.add(
          new Bar(
              kind.apply(one),
              number(x),
              number(y),
              number(step * SHARE),
              number(BOTTOM - y),
              number(LEFT + (i + 0.5) * step),
              number(numberAt(y, level == null ? null : scale.y(level))),
              above.apply(one),
              below.apply(one)));
    }
    return new PoolChart(bars, level == null ? null : number(scale.y(level)), words);
  }

  /** Over its bar, and over the line where that would strike it through. */
  private static double numberAt(double bar, Double line) {
    double over = bar - 4;
    return line != null && over > line - 3 && over < line + 12 ? line - 4 : over;
  }

  private static String number(double x) {
    return String.format(Locale.US, "%.1f", x);
  }
}
