package clinic.stimshelf.whatif;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/** A curve of what is left, in words, as a drawing and as a table. */
final class CurveTold {
  private static final int CORNERS = 60;

  private CurveTold() {}

  /** One step: when, of how many, how many ended, the share left, and its error. */
  record Step(double at, long atRisk, long ended, double left, Double error) {}

  /** Steps from all at 0, with a smooth curve beside them where there is one. */
  static Drawn drawn(List<Step> steps, double longest, DoubleUnaryOperator smooth, String words) {
    Drawn.Sheet sheet = new Drawn.Sheet(0, longest, 1);
    List<Drawn.Point> fitted = new ArrayList<>();
    for (int i = 0; smooth != null && i <= CORNERS; i++) {
      double x = longest * i / CORNERS;
      fitted.add(new Drawn.Point(x, smooth.applyAsDouble(x)));
    }
    return new Drawn(
        sheet.steps(1, steps.stream().map(s -> new Drawn.Point(s.at(), s.left())).toList()),
        smooth == null ? "" : sheet.straight(fitted),
        List.of(),
        sheet.across(),
        sheet.top(),
        words);
  }

  static List<Told.Row> rows(List<Step> steps) {
    return steps.stream()
        .map(
            s ->
                new Told.Row(
                    Figures.number(s.at()),
                    List.of(
                        String.valueOf(s.atRisk()),
                        String.valueOf(s.ended()),
                        Figures.of100(s.left()),
                        s.error() == null ? "–" : "± " + Figures.of100(s.error())),
                    false))
        .toList();
  }

  /** The share left after a time. */
  static double leftAfter(List<Step> steps, double time) {
    double left = 1;
    for (Step step : steps) {
      left = step.at() <= time ? step.left() : left;
    }
    return left;
  }
}
