package clinic.stimshelf.loans;

import clinic.stimshelf.calc.days.OpenDays;
import clinic.stimshelf.calc.pool.Returning;
import clinic.stimshelf.calc.pool.Standing;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;

/**
 * The days that would have been promised in the past year, and whether they would have been kept.
 *
 * <p>On the first open day of each week somebody is taken to ask for a unit of each kind when none
 * is left on the shelf, first in line, for as soon as can be. What the promise may use is what was
 * known that morning; it was kept if a unit that was away then had come back and was ready by the
 * promised day.
 */
@ApplicationScoped
public class PastPromises {
  private static final int WEEKS = 52;
  private static final int YEARS = 3;

  @Inject TimesAway times;
  @Inject Locations locations;

  /**
   * A day that would have been promised.
   *
   * @param asked when somebody would have asked
   * @param on the promised day
   * @param chance said for it
   * @param came first day on which a unit really was ready, or {@code null} if none is yet
   */
  public record Promised(
      String kind, LocalDate asked, LocalDate on, double chance, LocalDate came) {

    public boolean kept() {
      return came != null && !came.isAfter(on);
    }
  }

  /**
   * All of them.
   *
   * @param level that the location wants
   * @param promised those whose day is over, in order
   * @param without times at which no day was sure enough to be promised
   */
  public record Replayed(double level, List<Promised> promised, int without) {

    public Replayed {
      promised = List.copyOf(promised);
    }

    public long kept() {
      return promised.stream().filter(Promised::kept).count();
    }

    /** The mean of what was said; empty lists give 0. */
    public double said() {
      return promised.stream().mapToDouble(Promised::chance).average().orElse(0);
    }
  }

  /** Empty until enough units have come back to learn from. */
  @Transactional
  public Replayed of(Long locationId) {
    LocalDate today = locations.today(locationId);
    return replay(
        times.since(locationId, today.minusYears(YEARS)),
        today,
        locations.settings(locationId).number(Setting.SURENESS),
        (int) Math.ceil(locations.settings(locationId).number(Setting.TURNAROUND_DAYS)),
        locations.openDays(locationId));
  }

  /**
   * @param loans of some years, by day
   */
  static Replayed replay(
      List<Away> loans, LocalDate today, double level, int turnaround, OpenDays open) {
    List<String> kinds = loans.stream().map(Away::kind).distinct().sorted().toList();
    List<Promised> promised = new ArrayList<>();
    int without = 0;
    LocalDate monday = today.with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
    for (int week = WEEKS; week > 0; week--) {
      LocalDate asked = firstOpen(open, monday.minusWeeks(week));
      TimeAway learnt = asked == null ? null : learnt(loans, asked);
      if (learnt == null) {
        continue;
      }
      for (String kind : kinds) {
        List<Away> away =
            loans.stream().filter(loan -> loan.kind().equals(kind) && loan.awayOn(asked)).toList();
        if (away.isEmpty()) {
          continue;
        }
        List<Returning> returning =
            away.stream()
                .map(
                    loan ->
                        learnt.home(
                            kind, loan.dueAsOf(asked), loan.extendedBefore(asked), turnaround))
                .toList();
        Promise promise = Promise.of(asked, asked, Standing.of(0, 0, returning), level, open);
        if (promise.on() == null) {
          without++;
        } else if (!promise.on().isAfter(today)) {
          promised.add(
              new Promised(
                  kind, asked, promise.on(), promise.chance(), firstReady(away, turnaround)));
        }
      }
    }
    return new Replayed(level, promised, without);
  }

  private static LocalDate firstOpen(OpenDays open, LocalDate monday) {
    return IntStream.range(0, 7)
        .mapToObj(monday::plusDays)
        .filter(open::isOpen)
        .findFirst()
        .orElse(null);
  }

  private static LocalDate firstReady(List<Away> away, int turnaround) {
    return away.stream()
        .map(Away::back)
        .filter(Objects::nonNull)
        .min(Comparator.naturalOrder())
        .map(back -> back.plusDays(turnaround))
        .orElse(null);
  }

  /** What the newest loans told on that morning; {@code null} while they told too little. */
  private static TimeAway learnt(List<Away> loans, LocalDate morning) {
    List<Away> begun = loans.stream().filter(loan -> loan.out().isBefore(morning)).toList();
    List<Away> newest =
        begun.subList(Math.max(0, begun.size() - TimesAway.NEWEST), begun.size()).stream()
            .map(loan -> loan.asOf(morning))
            .toList();
    return newest.stream().filter(loan -> loan.back() != null).count() < TimeAway.ENOUGH
        ? null
        : TimeAway.of(newest, morning);
  }
}
