package clinic.stimshelf.program;

import clinic.stimshelf.calc.dose.Rhythm;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * One contraction with its rest as a drawn bar: ramp, on, off, to scale in time.
 *
 * @param words what the picture shows, for who does not see it
 * @param area outline of the filled shape
 * @param line the same with the rest
 * @param marks words under the parts
 */
record RhythmPicture(String words, String area, String line, List<Mark> marks) {
  static final int WIDTH = 480;
  private static final double LEFT = 10;
  private static final double RIGHT = 470;
  private static final double FLOOR = 76;
  private static final double TOP = 22;
  private static final double LEAST_GAP = 92;

  /** Words at a place. */
  record Mark(String x, String text) {}

  static RhythmPicture of(Outlook.Session session) {
    Rhythm rhythm = session.rhythm();
    double up = rhythm.rampUpSeconds().doubleValue();
    double down = rhythm.rampDownSeconds().doubleValue();
    double on = rhythm.onSeconds().doubleValue();
    double hold = rhythm.rampInsideOn() ? on - up - down : on;
    double cycle = rhythm.cycleSeconds().doubleValue();
    double scale = (RIGHT - LEFT) / cycle;
    double a = LEFT + up * scale;
    double b = a + hold * scale;
    double c = b + down * scale;
    String shape = "M" + at(LEFT, FLOOR) + "L" + at(a, TOP) + "L" + at(b, TOP) + "L" + at(c, FLOOR);
    List<Mark> marks = new ArrayList<>();
    double free = LEFT;
    if (up > 0) {
      free = mark(marks, LEFT, free, seconds(rhythm.rampUpSeconds()) + " up");
    }
    free =
        mark(
            marks,
            a,
            free,
            seconds(rhythm.onSeconds()) + " on" + (inside(rhythm) ? " in all" : ""));
    if (down > 0) {
      free = mark(marks, b, free, seconds(rhythm.rampDownSeconds()) + " down");
    }
    mark(marks, c, free, seconds(rhythm.offSeconds()) + " rest, then again");
    return new RhythmPicture(words(session), shape + "Z", shape + "L" + at(RIGHT, FLOOR), marks);
  }

  /** "3 s ramp up, 15 s on with the ramp, 45 s rest, 15 times: 15 minutes." */
  static String words(Outlook.Session session) {
    Rhythm rhythm = session.rhythm();
    StringBuilder words = new StringBuilder();
    if (rhythm.rampUpSeconds().signum() > 0) {
      words.append(seconds(rhythm.rampUpSeconds())).append(" ramp up, ");
    }
    words.append(seconds(rhythm.onSeconds())).append(" on");
    if (inside(rhythm)) {
      words.append(" with the ramps");
    }
    if (rhythm.rampDownSeconds().signum() > 0) {
      words.append(", ").append(seconds(rhythm.rampDownSeconds())).append(" ramp down");
    }
    words.append(", ").append(seconds(rhythm.offSeconds())).append(" rest");
    if (session.contractions() != null) {
      words.append(", ").append(session.contractions()).append(" times");
    }
    return words.toString();
  }

  private static boolean inside(Rhythm rhythm) {
    return rhythm.rampInsideOn()
        && rhythm.rampUpSeconds().add(rhythm.rampDownSeconds()).signum() > 0;
  }

  private static double mark(List<Mark> marks, double wanted, double free, String text) {
    double x = Math.max(wanted, free);
    marks.add(new Mark(number(x), text));
    return x + Math.min(LEAST_GAP, 14 + 6.2 * text.length());
  }

  static String seconds(BigDecimal seconds) {
    return DoseField.plain(seconds).toPlainString() + " s";
  }

  private static String at(double x, double y) {
    return number(x) + " " + number(y);
  }

  private static String number(double x) {
    return String.format(Locale.ROOT, "%.1f", x);
  }
}
