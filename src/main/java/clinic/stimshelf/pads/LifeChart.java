package clinic.stimshelf.pads;

import clinic.stimshelf.calc.wear.Weibull;
import java.util.ArrayList;
import java.util.List;

/**
 * The share of sets that still last, by sessions: seen steps, and the fitted lives beside them;
 * numbers are those of the drawing.
 *
 * @param steps corners of the seen curve
 * @param fitted corners of the fitted curve, or {@code null}
 * @param sure height of the share that should last as planned
 * @param planned where plans count on
 * @param rated where the rated life lies
 */
record LifeChart(
    String steps,
    String fitted,
    String sure,
    String sureWords,
    String planned,
    String rated,
    List<StockChart.Mark> uses,
    String words) {
  static final int LEFT = 40;
  static final int RIGHT = 340;
  static final int TOP = 10;
  static final int BOTTOM = 150;
  private static final int POINTS = 60;

  static LifeChart of(WearView wear) {
    double longest = Math.max(wear.ratedUses(), wear.plannedUses()) * 1.25;
    for (WearView.Step step : wear.steps()) {
      longest = Math.max(longest, step.uses() * 1.05);
    }
    StringBuilder steps = new StringBuilder(point(0, 1, longest));
    double height = 1;
    for (WearView.Step step : wear.steps()) {
      steps.append(' ').append(point(step.uses(), height, longest));
      height = step.lasting();
      steps.append(' ').append(point(step.uses(), height, longest));
    }
    StringBuilder fitted = new StringBuilder();
    if (wear.shape() != null) {
      Weibull lives = new Weibull(wear.shape(), wear.scale());
      for (int n = 0; n <= POINTS; n++) {
        double uses = longest * n / POINTS;
        fitted.append(n == 0 ? "" : " ").append(point(uses, lives.surviving(uses), longest));
      }
    }
    List<StockChart.Mark> marks = new ArrayList<>();
    int step = longest <= 30 ? 5 : longest <= 80 ? 10 : 25;
    for (int uses = 0; uses < longest; uses += step) {
      marks.add(new StockChart.Mark(PadPicture.number(x(uses, longest)), String.valueOf(uses)));
    }
    return new LifeChart(
        steps.toString(),
        fitted.isEmpty() ? null : fitted.toString(),
        PadPicture.number(y(wear.reliability())),
        Math.round(100 * wear.reliability()) + " %",
        PadPicture.number(x(wear.plannedUses(), longest)),
        PadPicture.number(x(wear.ratedUses(), longest)),
        marks,
        "Of "
            + wear.observed()
            + " sets "
            + share(wear, wear.ratedUses())
            + " % lasted longer than the rated "
            + wear.ratedUses()
            + " sessions, "
            + share(wear, wear.plannedUses())
            + " % longer than the "
            + wear.plannedUses()
            + " that plans count on");
  }

  private static long share(WearView wear, int uses) {
    double lasting = 1;
    for (WearView.Step step : wear.steps()) {
      if (step.uses() <= uses) {
        lasting = step.lasting();
      }
    }
    return Math.round(100 * lasting);
  }

  private static String point(double uses, double share, double longest) {
    return PadPicture.number(x(uses, longest)) + "," + PadPicture.number(y(share));
  }

  private static double x(double uses, double longest) {
    return LEFT + (RIGHT - LEFT) * uses / longest;
  }

  private static double y(double share) {
    return BOTTOM - (BOTTOM - TOP) * share;
  }
}
