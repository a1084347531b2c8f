package clinic.stimshelf.pads;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The cupboard of the coming days as a line in its band; numbers are those of the drawing.
 *
 * @param band corners of the band in which 90 of 100 courses stay
 * @param line corners of the expected course
 * @param level height of the order level
 * @param days marks below
 * @param packs marks beside
 * @param risk the first day on which the chance of an empty shelf is above what is accepted, or
 *     {@code null}
 */
record StockChart(
    String band,
    String line,
    String level,
    String levelWords,
    List<Mark> days,
    List<Mark> packs,
    Mark risk,
    String words) {
  static final int LEFT = 40;
  static final int RIGHT = 340;
  static final int TOP = 10;
  static final int BOTTOM = 150;
  private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("MMM d", Locale.US);

  /** Words at a place. */
  record Mark(String at, String words) {}

  static StockChart of(ReorderView answer, int usable) {
    List<ReorderView.Day> days = answer.projection();
    double most = Math.max(1, Math.max(usable, answer.reorderPoint()));
    for (ReorderView.Day day : days) {
      most = Math.max(most, day.high());
    }
    double step = (RIGHT - LEFT) / (double) days.size();
    StringBuilder line = new StringBuilder(point(LEFT, usable, most));
    StringBuilder upper = new StringBuilder(point(LEFT, usable, most));
    List<String> lower = new ArrayList<>();
    List<Mark> marks = new ArrayList<>();
    Mark risk = null;
    for (int n = 0; n < days.size(); n++) {
      ReorderView.Day day = days.get(n);
      double x = LEFT + (n + 1) * step;
      line.append(' ').append(point(x, day.expected(), most));
      upper.append(' ').append(point(x, day.high(), most));
      lower.add(0, point(x, day.low(), most));
      if (n % 7 == 0) {
        marks.add(new Mark(PadPicture.number(x), DAY.format(day.date())));
      }
      if (risk == null && day.stockoutChance() > 1 - answer.serviceLevel()) {
        risk = new Mark(PadPicture.number(x), DAY.format(day.date()));
      }
    }
    return new StockChart(
        upper + " " + String.join(" ", lower),
        line.toString(),
        PadPicture.number(y(answer.reorderPoint(), most)),
        String.valueOf(answer.reorderPoint()),
        marks,
        List.of(
            new Mark(PadPicture.number(y(most, most) + 4), String.valueOf(Math.round(most))),
            new Mark(PadPicture.number(BOTTOM + 4.0), "0")),
        risk,
        words(answer, usable, risk));
  }

  private static String words(ReorderView answer, int usable, Mark risk) {
    ReorderView.Day last = answer.projection().get(answer.projection().size() - 1);
    LocalDate end = last.date();
    return "Expected packs go from "
        + usable
        + " today to "
        + Math.max(0, Math.round(last.expected()))
        + " on "
        + DAY.format(end)
        + (risk == null
            ? "; the chance of an empty shelf stays within what is accepted"
            : "; from " + risk.words() + " an empty shelf is likelier than accepted");
  }

  private static String point(double x, double packs, double most) {
    return PadPicture.number(x) + "," + PadPicture.number(y(packs, most));
  }

  private static double y(double packs, double most) {
    return BOTTOM - (BOTTOM - TOP) * Math.max(0, packs) / most;
  }
}
