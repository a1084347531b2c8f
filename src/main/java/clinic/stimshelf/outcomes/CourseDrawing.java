package clinic.stimshelf.outcomes;

import clinic.stimshelf.web.Days;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * The course of what was measured alike: same measure, side and words. Drawn in 360 by 150.
 *
 * @param title measure, what and side
 * @param level height of the clinic's own threshold, {@code null} where there is none
 * @param words the drawing for who does not see it
 */
record CourseDrawing(
    String title, List<Point> points, String path, String level, String levelWords, String words) {
  private static final double LEFT = 36;
  private static final double RIGHT = 318;
  private static final double TOP = 24;
  private static final double BOTTOM = 122;

  /**
   * A measurement of the course. The first is labelled before and the last after its point, where
   * no line runs.
   */
  record Point(
      String x,
      String y,
      String labelX,
      String labelY,
      String anchor,
      String figure,
      String day,
      boolean named) {}

  private record Seen(Instant at, LocalDate on, double figure) {}

  /** One drawing for each that was measured on at least two times; voided entries are left out. */
  static List<CourseDrawing> of(List<OutcomeView> all, Threshold threshold, ZoneId zone) {
    Map<String, List<OutcomeView>> alike = new LinkedHashMap<>();
    all.stream()
        .filter(one -> one.voidedAt() == null)
        .sorted(
            Comparator.comparing(OutcomeView::happenedAt)
                .thenComparing(one -> Long.valueOf(one.id())))
        .forEach(
            one ->
                alike
                    .computeIfAbsent(
                        one.measure()
                            + " "
                            + one.side()
                            + " "
                            + one.what().toLowerCase(Locale.ROOT),
                        key -> new ArrayList<>())
                    .add(one));
    return alike.values().stream()
        .filter(course -> course.size() > 1)
        .map(course -> draw(course, threshold, zone))
        .toList();
  }

  private static CourseDrawing draw(List<OutcomeView> course, Threshold threshold, ZoneId zone) {
    OutcomeView first = course.get(0);
    boolean symmetry = first.symmetryPercent() != null;
    List<Seen> seen =
        course.stream()
            .map(one -> new Seen(one.happenedAt(), day(one.happenedAt(), zone), one.figure()))
            .toList();
    double low = Math.min(0, seen.stream().mapToDouble(Seen::figure).min().orElse(0));
    double high = seen.stream().mapToDouble(Seen::figure).max().orElse(1);
    high = Math.max(symmetry ? Math.max(high, threshold.percent()) : high, low + 1);
    Instant from = seen.get(0).at();
    double span = Math.max(1, ChronoUnit.SECONDS.between(from, seen.get(seen.size() - 1).at()));
    List<Point> points = new ArrayList<>();
    StringBuilder path = new StringBuilder();
    for (int i = 0; i < seen.size(); i++) {
      double x = LEFT + (RIGHT - LEFT) * ChronoUnit.SECONDS.between(from, seen.get(i).at()) / span;
      double y = y(seen.get(i).figure(), low, high);
      path.append(i == 0 ? "M" : "L").append(number(x)).append(' ').append(number(y));
      points.add(
          new Point(
              number(x),
              number(y),
              number(i == 0 ? x - 7 : x + 7),
              number(y + 4),
              i == 0 ? "end" : "start",
              number(seen.get(i).figure()),
              Days.full(seen.get(i).on()),
              i == 0 || i == seen.size() - 1));
    }
    String title = first.measure().words() + ", " + first.what() + ", " + first.side().word();
    return new CourseDrawing(
        title,
        points,
        path.toString(),
        symmetry ? number(y(threshold.percent(), low, high)) : null,
        symmetry ? threshold.words() : null,
        title
            + " from "
            + points.get(0).figure()
            + " on "
            + points.get(0).day()
            + " to "
            + points.get(points.size() - 1).figure()
            + " on "
            + points.get(points.size() - 1).day()
            + "; every value stands in the table");
  }

  private static double y(double figure, double low, double high) {
    return BOTTOM - (BOTTOM - TOP) * (figure - low) / (high - low);
  }

  private static LocalDate day(Instant at, ZoneId zone) {
    return LocalDate.ofInstant(at, zone);
  }

  private static String number(double value) {
    return String.format(Locale.US, "%.1f", value);
  }
}
