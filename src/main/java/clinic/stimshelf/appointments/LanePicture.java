package clinic.stimshelf.appointments;

import clinic.stimshelf.appointments.PlannedDay.DayUnit;
import clinic.stimshelf.appointments.PlannedDay.How;
import clinic.stimshelf.appointments.PlannedDay.Line;
import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.web.Days;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The units of a day as lanes, 1000 wide, a bar for each treatment from setting up to the end of
 * the wipe. The list below the drawing says the same in words.
 */
record LanePicture(List<Lane> lanes, List<Hour> hours, int height, int nowX) {
  private static final int LEFT = 110;
  private static final int WIDTH = 1000 - LEFT;
  private static final int ROW = 26;
  private static final int TOP = 20;

  /** A unit, or what has none. */
  record Lane(int y, String name, List<Bar> bars) {}

  /**
   * A treatment, or a time at which the unit serves none.
   *
   * @param kind runs, by-hand, planned, proposed, none or busy
   * @param words short enough for the bar, or empty
   */
  record Bar(int x, int width, String kind, String words, String title) {}

  /** A full hour. */
  record Hour(int x, String words) {}

  /** Nothing to draw where no treatment needs a unit of the shelf. */
  static LanePicture of(
      PlannedDay plan,
      Map<Long, AppointmentView> views,
      LocalTime opens,
      LocalTime closes,
      Instant now) {
    List<Line> shelf = plan.lines().stream().filter(line -> line.how() != How.BROUGHT).toList();
    if (shelf.isEmpty()) {
      return new LanePicture(List.of(), List.of(), 0, -1);
    }
    ZoneId zone = plan.zone();
    Instant from = plan.day().atTime(opens).atZone(zone).toInstant();
    Instant to = plan.day().atTime(closes).atZone(zone).toInstant();
    for (Line line : shelf) {
      from = line.span().start().isBefore(from) ? line.span().start() : from;
      to = line.span().end().isAfter(to) ? line.span().end() : to;
    }
    Scale scale = new Scale(from, to);
    List<Lane> lanes = new ArrayList<>();
    Map<Long, List<Bar>> bars = new HashMap<>();
    List<Bar> none = new ArrayList<>();
    for (Line line : shelf) {
      Bar bar = bar(line, views.get(line.appointmentId()), scale, zone);
      if (line.unitId() == null) {
        none.add(bar);
      } else {
        bars.computeIfAbsent(line.unitId(), id -> new ArrayList<>()).add(bar);
      }
    }
    int y = TOP;
    if (!none.isEmpty()) {
      lanes.add(new Lane(y, "no unit", none));
      y += ROW;
    }
    Map<Long, String> known = new HashMap<>();
    for (DayUnit one : plan.units()) {
      List<Bar> theirs = bars.computeIfAbsent(one.unit().id(), id -> new ArrayList<>());
      one.busy().forEach((span, words) -> busy(span, words, scale, theirs));
      lanes.add(new Lane(y, one.unit().tag(), theirs));
      known.put(one.unit().id(), one.unit().tag());
      y += ROW;
    }
    for (Line line : shelf) {
      // Named by hand, and no longer able to serve.
      if (line.unitId() != null && !known.containsKey(line.unitId())) {
        known.put(line.unitId(), String.valueOf(line.unitTag()));
        lanes.add(new Lane(y, String.valueOf(line.unitTag()), bars.get(line.unitId())));
        y += ROW;
      }
    }
    int nowX = now.isAfter(from) && now.isBefore(to) ? scale.x(now) : -1;
    return new LanePicture(lanes, hours(plan, from, to, scale), y, nowX);
  }

  public boolean empty() {
    return lanes.isEmpty();
  }

  private static Bar bar(Line line, AppointmentView view, Scale scale, ZoneId zone) {
    String kind =
        switch (line.how()) {
          case RUNS -> "runs";
          case BY_HAND, BROUGHT -> "by-hand";
          case PLANNED -> line.differs() ? "proposed" : "planned";
          case NONE -> "none";
        };
    int x = scale.x(line.span().start());
    int width = Math.max(4, scale.x(line.span().end()) - x);
    String title =
        view.chartNumber()
            + ", "
            + Days.clock(line.span().start().atZone(zone).toLocalTime())
            + " to "
            + Days.clock(line.span().end().atZone(zone).toLocalTime())
            + ", "
            + line.how().words();
    return new Bar(x, width, kind, width < 34 ? "" : end(view.chartNumber()), title);
  }

  /** As much of a chart number as fits: its last part. */
  private static String end(String chart) {
    String last = chart.substring(chart.lastIndexOf('-') + 1);
    return last.length() <= 6 ? last : last.substring(last.length() - 6);
  }

  private static void busy(Span<Instant> span, String words, Scale scale, List<Bar> bars) {
    int x = Math.max(LEFT, scale.x(span.start()));
    int width = Math.min(1000, scale.x(span.end())) - x;
    if (width > 0) {
      bars.add(0, new Bar(x, width, "busy", width < 56 ? "" : words, words));
    }
  }

  private static List<Hour> hours(PlannedDay plan, Instant from, Instant to, Scale scale) {
    List<Hour> hours = new ArrayList<>();
    for (int hour = 0; hour < 24; hour++) {
      Instant at = plan.day().atTime(hour, 0).atZone(plan.zone()).toInstant();
      if (!at.isBefore(from) && at.isBefore(to)) {
        int twelve = hour % 12 == 0 ? 12 : hour % 12;
        hours.add(new Hour(scale.x(at), twelve + (hour < 12 ? " AM" : " PM")));
      }
    }
    return hours;
  }

  private record Scale(Instant from, Instant to) {
    int x(Instant at) {
      double share =
          (double) Duration.between(from, at).toSeconds() / Duration.between(from, to).toSeconds();
      return LEFT + (int) Math.round(WIDTH * share);
    }
  }
}
