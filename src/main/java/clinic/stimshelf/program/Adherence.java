package clinic.stimshelf.program;

import clinic.stimshelf.calc.rates.Proportion;
import java.time.LocalDate;
import java.util.Collection;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * How a program was followed up to yesterday: {@code 100 done / planned} to date, not over the
 * whole course. Only sessions done count as done; on a day no more of them than were planned. A
 * partial session is told apart, and so is one of which nothing is known.
 *
 * @param from first day counted
 * @param to last day counted: yesterday, or the program's last day with a session
 * @param missed known not to have taken place
 * @param notLogged planned, with nothing entered
 * @param extra done beyond what was planned on the day
 * @param percent {@code null} while nothing was planned yet
 * @param lowPercent lower limit of its 95 % interval (Wilson), {@code null} with it
 * @param highPercent upper limit
 * @param missesInARow latest planned sessions that were all missed
 * @param daysNotLogged latest days with sessions of which nothing is known
 * @param recentDone sessions done in the last 14 days
 * @param recentKnown sessions of those days of which something is known
 */
public record Adherence(
    LocalDate from,
    LocalDate to,
    int planned,
    int done,
    int partial,
    int missed,
    int notLogged,
    int extra,
    Double percent,
    Double lowPercent,
    Double highPercent,
    int missesInARow,
    int daysNotLogged,
    int recentDone,
    int recentKnown) {

  /** Share of the sessions from which on a program counts as followed (Hicks 2016 and practice). */
  static final double FOLLOWED = 0.8;

  private static final int RECENT_DAYS = 14;

  /**
   * Whether somebody should ask: two sessions in a row were missed, or of the last 14 days enough
   * is known to say that fewer than 80 % were done.
   */
  public boolean behind() {
    return missesInARow >= 2
        || (recentKnown > 0 && Proportion.of(recentDone, recentKnown).high() < FOLLOWED);
  }

  /** So few known sessions that their share would jump about; common practice, no source. */
  private static final int FEW = 6;

  /**
   * Share of the sessions something is known of that were done, whole or in part.
   *
   * @param without what counts while too little is known
   */
  double shareOfKnown(double without) {
    int known = done + partial + missed;
    return known < FEW ? without : (done + partial) / (double) known;
  }

  /** A session of which something is known. */
  record Known(LocalDate day, int nth, Outcome outcome) {}

  static Adherence of(Planned planned, Collection<Known> known, LocalDate from, LocalDate to) {
    Map<LocalDate, EnumMap<Outcome, Integer>> byDay = new HashMap<>();
    for (Known one : known) {
      byDay
          .computeIfAbsent(one.day(), day -> new EnumMap<>(Outcome.class))
          .merge(one.outcome(), 1, Integer::sum);
    }
    int sessions = 0;
    int done = 0;
    int partial = 0;
    int missed = 0;
    int unknown = 0;
    int extra = 0;
    int recentDone = 0;
    int recentKnown = 0;
    for (LocalDate day = from; !day.isAfter(to); day = day.plusDays(1)) {
      int wanted = planned.on(day);
      EnumMap<Outcome, Integer> seen = byDay.get(day);
      int doneToday = count(seen, Outcome.DONE);
      int partialToday = Math.min(count(seen, Outcome.PARTIAL), Math.max(0, wanted - doneToday));
      int counted = Math.min(doneToday, wanted);
      int left = wanted - counted - partialToday;
      int missedToday = Math.min(count(seen, Outcome.NOT), left);
      sessions += wanted;
      done += counted;
      extra += doneToday - counted;
      partial += partialToday;
      missed += missedToday;
      unknown += left - missedToday;
      if (day.isAfter(to.minusDays(RECENT_DAYS))) {
        recentDone += counted;
        recentKnown += counted + partialToday + missedToday;
      }
    }
    Proportion share = sessions == 0 ? null : Proportion.of(done, sessions);
    List<LocalDate> latest = planned.lastDays(to, 14);
    return new Adherence(
        from,
        to,
        sessions,
        done,
        partial,
        missed,
        unknown,
        extra,
        share == null ? null : 100 * share.rate(),
        share == null ? null : 100 * share.low(),
        share == null ? null : 100 * share.high(),
        missesInARow(planned, known, latest),
        daysNotLogged(byDay, latest),
        recentDone,
        recentKnown);
  }

  private static int missesInARow(
      Planned planned, Collection<Known> known, List<LocalDate> latestFirst) {
    Map<LocalDate, Map<Integer, Outcome>> byNumber = new HashMap<>();
    for (Known one : known) {
      byNumber.computeIfAbsent(one.day(), day -> new HashMap<>()).put(one.nth(), one.outcome());
    }
    int misses = 0;
    for (LocalDate day : latestFirst) {
      for (int nth = planned.on(day); nth >= 1; nth--) {
        Outcome outcome = byNumber.getOrDefault(day, Map.of()).get(nth);
        if (outcome != Outcome.NOT) {
          return misses;
        }
        misses++;
      }
    }
    return misses;
  }

  private static int daysNotLogged(
      Map<LocalDate, EnumMap<Outcome, Integer>> byDay, List<LocalDate> latestFirst) {
    int days = 0;
    for (LocalDate day : latestFirst) {
      if (byDay.containsKey(day)) {
        return days;
      }
      days++;
    }
    return days;
  }

  private static int count(EnumMap<Outcome, Integer> seen, Outcome outcome) {
    return seen == null ? 0 : seen.getOrDefault(outcome, 0);
  }
}
