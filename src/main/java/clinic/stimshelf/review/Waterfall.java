package clinic.stimshelf.review;

import clinic.stimshelf.calc.consumption.Cause;
import clinic.stimshelf.calc.consumption.Statement;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The steps that add up, drawn: two whole columns and between them what was added (full) and what
 * was saved (dashed outline). Numbers are those of the drawing.
 *
 * @param bars from left to right
 * @param links from one bar's end to the next, as a path
 */
record Waterfall(List<Bar> bars, String links, String words) {
  static final int WIDTH = 360;
  private static final int TOP = 24;
  private static final int BOTTOM = 160;
  private static final int BAR = 44;

  /**
   * @param kind whole, more or less
   * @param middle where the words stand
   * @param amountAt height of the amount
   */
  record Bar(
      String kind,
      String x,
      String y,
      String height,
      String middle,
      String amountAt,
      String amount,
      String label) {}

  static Waterfall of(Statement.Column cost, String beforeLabel) {
    List<String> labels = new ArrayList<>(List.of(beforeLabel));
    List<BigDecimal> steps = new ArrayList<>(List.of(cost.before()));
    for (Cause cause : Cause.values()) {
      labels.add(cause.name().toLowerCase(Locale.ROOT));
      steps.add(cost.part(cause));
    }
    double most = Math.max(1, cost.before().doubleValue());
    double least = Math.min(0, cost.before().doubleValue());
    double level = 0;
    for (BigDecimal step : steps) {
      level += step.doubleValue();
      most = Math.max(most, level);
      least = Math.min(least, level);
    }
    double scale = (BOTTOM - TOP) / (most - least);
    double gap = (WIDTH - (steps.size() + 1) * (double) BAR) / (steps.size() + 2);
    List<Bar> bars = new ArrayList<>();
    StringBuilder links = new StringBuilder();
    level = 0;
    for (int i = 0; i <= steps.size(); i++) {
      boolean whole = i == 0 || i == steps.size();
      double step = i == steps.size() ? level : steps.get(i).doubleValue();
      double from = whole ? 0 : level;
      double to = whole ? step : level + step;
      double x = gap + i * (BAR + gap);
      double top = y(Math.max(from, to), most, scale);
      double height = Math.max(1, Math.abs(to - from) * scale);
      String kind = whole ? "whole" : step >= 0 ? "more" : "less";
      bars.add(
          new Bar(
              kind,
              number(x),
              number(top),
              number(height),
              number(x + BAR / 2.0),
              number(top - 5),
              whole ? Amounts.money(BigDecimal.valueOf(step)) : Amounts.moneyMore(steps.get(i)),
              i == steps.size() ? "used" : labels.get(i)));
      if (i < steps.size()) {
        double line = y(to, most, scale);
        links
            .append('M')
            .append(number(x + BAR))
            .append(' ')
            .append(number(line))
            .append('h')
            .append(number(gap));
      }
      level = whole && i > 0 ? level : to;
    }
    return new Waterfall(bars, links.toString(), words(cost, beforeLabel));
  }

  private static String words(Statement.Column cost, String beforeLabel) {
    StringBuilder words =
        new StringBuilder("From " + Amounts.money(cost.before()) + " " + beforeLabel);
    for (Cause cause : Cause.values()) {
      words
          .append(", ")
          .append(cause.name().toLowerCase(Locale.ROOT))
          .append(' ')
          .append(Amounts.moneyMore(cost.part(cause)));
    }
    return words + " to " + Amounts.money(cost.now()) + " used";
  }

  private static double y(double amount, double most, double scale) {
    return TOP + (most - amount) * scale;
  }

  private static String number(double x) {
    return String.format(Locale.US, "%.1f", x);
  }
}
