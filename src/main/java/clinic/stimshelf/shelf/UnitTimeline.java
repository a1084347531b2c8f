package clinic.stimshelf.shelf;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * The last twelve months of a unit as a drawing, 1000 wide: when somebody had it, and what was done
 * to it between.
 */
public record UnitTimeline(List<Bar> bars, List<Mark> marks, List<Tick> ticks) {
  private static final int WIDTH = 1000;
  private static final int DAYS = 365;
  private static final Set<String> DRAWN = Set.of("wipe", "inspection", "test", "fault");
  private static final DateTimeFormatter MONTH = DateTimeFormatter.ofPattern("MMM", Locale.US);

  /** A use. */
  public record Bar(int x, int width, String kind, String words) {}

  /** A moment. */
  public record Mark(int x, String kind, String words) {}

  /** The first day of a month. */
  public record Tick(int x, String words) {}

  public boolean empty() {
    return bars.isEmpty() && marks.isEmpty();
  }

  static UnitTimeline of(List<HistoryLine> lines, Instant now, ZoneId zone) {
    Instant from = now.minus(Duration.ofDays(DAYS));
    List<Bar> bars = new ArrayList<>();
    List<Mark> marks = new ArrayList<>();
    for (HistoryLine line : lines) {
      if (line.at().isAfter(now)) {
        continue;
      }
      boolean use = line.kind().equals("loan") || line.kind().equals("treatment");
      Instant to = line.to() == null ? now : line.to();
      if (use && to.isAfter(from)) {
        int x = place(line.at(), from, now);
        int end = place(to, from, now);
        bars.add(new Bar(x, Math.max(2, end - x), line.kind(), line.words()));
      } else if (DRAWN.contains(line.kind()) && line.at().isAfter(from)) {
        marks.add(new Mark(place(line.at(), from, now), line.kind(), line.words()));
      }
    }
    return new UnitTimeline(bars, marks, ticks(from, now, zone));
  }

  private static List<Tick> ticks(Instant from, Instant now, ZoneId zone) {
    List<Tick> ticks = new ArrayList<>();
    LocalDate month = LocalDate.ofInstant(from, zone).plusMonths(1).withDayOfMonth(1);
    while (!month.isAfter(LocalDate.ofInstant(now, zone))) {
      ticks.add(
          new Tick(place(month.atStartOfDay(zone).toInstant(), from, now), MONTH.format(month)));
      month = month.plusMonths(1);
    }
    return ticks;
  }

  private static int place(Instant at, Instant from, Instant now) {
    double share =
        (double) Duration.between(from, at).toSeconds() / Duration.between(from, now).toSeconds();
    return (int) Math.round(WIDTH * Math.min(1, Math.max(0, share)));
  }
}
