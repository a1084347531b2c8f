package clinic.stimshelf.whatif;

import java.util.ArrayList;
import java.util.List;

/**
 * A curve of shares between 0 and 1 against a number, as it is drawn.
 *
 * @param line corners of the curve
 * @param second corners of another one beside it, or empty
 * @param points dots that are named, each with the words beside it
 * @param across marks below
 * @param words what the drawing shows, for who does not see it
 */
record Drawn(
    String line, String second, List<Dot> points, List<Mark> across, String top, String words) {
  static final int LEFT = 44;
  static final int RIGHT = 340;
  static final int TOP = 12;
  static final int BOTTOM = 150;

  /** A point of a curve. */
  record Point(double x, double y) {}

  /** A dot with its words. */
  record Dot(String x, String y, String words, boolean left) {}

  /** Words at a place. */
  record Mark(String at, String words) {}

  static final class Sheet {
    private final double from;
    private final double to;
    private final double most;

    /** A drawing of a curve over a span, up to the greatest share in it. */
    Sheet(double from, double to, double most) {
      this.from = from;
      this.to = to > from ? to : from + 1;
      this.most = most > 0 ? most : 1;
    }

    String straight(List<Point> points) {
      List<String> corners = new ArrayList<>();
      points.forEach(point -> corners.add(corner(point.x(), point.y())));
      return String.join(" ", corners);
    }

    /** A share that stays until the next point. */
    String steps(double start, List<Point> points) {
      List<String> corners = new ArrayList<>();
      double height = start;
      corners.add(corner(from, height));
      for (Point point : points) {
        corners.add(corner(point.x(), height));
        height = point.y();
        corners.add(corner(point.x(), height));
      }
      corners.add(corner(to, height));
      return String.join(" ", corners);
    }

    Dot dot(double x, double y, String words) {
      return new Dot(Figures.place(x(x)), Figures.place(y(y)), words, x(x) > (LEFT + RIGHT) / 2.0);
    }

    List<Mark> across() {
      return List.of(mark(from), mark((from + to) / 2), mark(to));
    }

    String top() {
      return Figures.of100(most);
    }

    private Mark mark(double x) {
      return new Mark(Figures.place(x(x)), Figures.number(x));
    }

    private String corner(double x, double y) {
      return Figures.place(x(x)) + "," + Figures.place(y(y));
    }

    private double x(double x) {
      return LEFT + (RIGHT - LEFT) * Math.min(1, Math.max(0, (x - from) / (to - from)));
    }

    private static double clipped(double y) {
      return Math.min(1, Math.max(0, y));
    }

    private double y(double y) {
      return BOTTOM - (BOTTOM - TOP) * clipped(y / most);
    }
  }
}
