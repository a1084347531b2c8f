package clinic.stimshelf.review;

import clinic.stimshelf.calc.demand.Replay.Course;
import clinic.stimshelf.calc.demand.Replay.Day;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Packs in the cupboard, evening by evening, three times over; below zero are packs that wait. */
record ReplayChart(
    String happened,
    String rule,
    String fixed,
    String zero,
    List<Mark> months,
    List<Mark> packs,
    String words) {
  private static final int LEFT = 36;
  private static final int RIGHT = 350;
  private static final int TOP = 10;
  private static final int BOTTOM = 160;
  private static final int LEAST_GAP = 44;
  private static final DateTimeFormatter MONTH = DateTimeFormatter.ofPattern("MMM", Locale.US);

  /** Words at a place. */
  record Mark(String at, String words) {}

  static ReplayChart of(ReplayView view) {
    List<Course> courses = List.of(view.happened(), view.rule(), view.fixed());
    long most = 1;
    long least = 0;
    for (Course course : courses) {
      for (Day day : course.days()) {
        most = Math.max(most, net(day));
        least = Math.min(least, net(day));
      }
    }
    double scale = (BOTTOM - TOP) / (double) (most - least);
    int days = view.rule().days().size();
    double step = (RIGHT - LEFT) / (double) Math.max(1, days - 1);
    List<Mark> months = new ArrayList<>();
    double last = -LEAST_GAP;
    for (int n = 0; n < days; n++) {
      LocalDate day = view.rule().days().get(n).day();
      double x = LEFT + n * step;
      if (day.getDayOfMonth() == 1 && x - last >= LEAST_GAP && x < RIGHT - 12) {
        months.add(new Mark(number(x), MONTH.format(day)));
        last = x;
      }
    }
    List<Mark> packs = new ArrayList<>();
    packs.add(new Mark(number(y(most, most, scale)), String.valueOf(most)));
    packs.add(new Mark(number(y(0, most, scale)), "0"));
    if (least < 0 && -least * scale > 12) {
      packs.add(new Mark(number(y(least, most, scale)), "−" + -least));
    }
    return new ReplayChart(
        line(view.happened(), most, scale, step),
        line(view.rule(), most, scale, step),
        line(view.fixed(), most, scale, step),
        number(y(0, most, scale)),
        months,
        packs,
        "Packs in the cupboard day by day. On an average evening: what happened "
            + average(view.happened())
            + ", our rule "
            + average(view.rule())
            + ", the fixed level "
            + average(view.fixed()));
  }

  private static String average(Course course) {
    return String.format(Locale.US, "%.1f", course.averageOnHand());
  }

  private static long net(Day day) {
    return day.onHand() - day.waiting();
  }

  private static String line(Course course, long most, double scale, double step) {
    StringBuilder points = new StringBuilder();
    for (int n = 0; n < course.days().size(); n++) {
      points
          .append(n == 0 ? "" : " ")
          .append(number(LEFT + n * step))
          .append(',')
          .append(number(y(net(course.days().get(n)), most, scale)));
    }
    return points.toString();
  }

  private static double y(long packs, long most, double scale) {
    return TOP + (most - packs) * scale;
  }

  private static String number(double x) {
    return String.format(Locale.US, "%.1f", x);
  }
}
