package clinic.stimshelf.calc.plan;

import clinic.stimshelf.calc.plan.VisitRun.Slot;
import clinic.stimshelf.calc.plan.VisitRun.Wish;
import java.util.ArrayList;
import java.util.List;

/**
 * The best run of exactly so many visits out of given slots: most with the preferred therapist,
 * then least distance, then earliest starts. Worked from the end: {@code best[left][c][i]} is the
 * best of runs that begin with slot i as the c-th of its week and have so many visits left, itself
 * included.
 */
final class RunSearch<K> {

  /** Weighs one visit with the preferred therapist above any total distance. */
  private static final long PREFERRED = 1L << 40;

  private static final long IMPOSSIBLE = Long.MIN_VALUE / 4;

  private final List<Slot<K>> slots;
  private final int count;
  private final long[] week;

  /** First slot that is far enough from slot i, and first slot of a later week that is. */
  private final int[] nextApart;

  private final int[] nextWeekApart;
  private final long[] value;
  private final long[][][] best;
  private final long total;

  /**
   * @param slots ascending by start; they must hold a run of {@code count} visits
   */
  RunSearch(List<Slot<K>> slots, Wish wish, int count) {
    this.slots = slots;
    this.count = count;
    int n = slots.size();
    week = slots.stream().mapToLong(slot -> wish.week(slot.start())).toArray();
    nextApart = new int[n];
    nextWeekApart = new int[n];
    value = new long[n];
    for (int i = 0, apart = 0, nextWeek = 0; i < n; i++) {
      while (apart < n && !wish.apart(slots.get(i).start(), slots.get(apart).start())) {
        apart++;
      }
      nextWeek = Math.max(nextWeek, apart);
      while (nextWeek < n && week[nextWeek] == week[i]) {
        nextWeek++;
      }
      nextApart[i] = apart;
      nextWeekApart[i] = nextWeek;
      Slot<K> slot = slots.get(i);
      value[i] = (slot.therapist().equals(wish.preferred()) ? PREFERRED : 0) - slot.distance();
    }
    int perWeek = Math.min(wish.perWeek(), count);
    best = new long[count + 1][perWeek + 1][];
    total = solve(perWeek);
  }

  private long solve(int perWeek) {
    int n = slots.size();
    long[] fromAnyWeek = new long[n + 1];
    long[][] fromSameWeek = new long[perWeek + 1][n + 1];
    for (int left = 1; left <= count; left++) {
      for (int c = 1; c <= perWeek; c++) {
        long[] here = new long[n];
        for (int i = 0; i < n; i++) {
          here[i] =
              left == 1 ? value[i] : value[i] + onward(i, c, perWeek, fromAnyWeek, fromSameWeek);
          here[i] = Math.max(here[i], IMPOSSIBLE);
        }
        best[left][c] = here;
      }
      fromAnyWeek = suffix(best[left][1], false);
      for (int c = 1; c <= perWeek; c++) {
        fromSameWeek[c] = suffix(best[left][c], true);
      }
    }
    return fromAnyWeek[0];
  }

  private long onward(int i, int c, int perWeek, long[] fromAnyWeek, long[][] fromSameWeek) {
    long later = fromAnyWeek[nextWeekApart[i]];
    int next = nextApart[i];
    boolean sameWeek = c < perWeek && next < week.length && week[next] == week[i];
    return sameWeek ? Math.max(later, fromSameWeek[c + 1][next]) : later;
  }

  private long[] suffix(long[] values, boolean withinWeek) {
    long[] suffix = new long[values.length + 1];
    suffix[values.length] = IMPOSSIBLE;
    for (int i = values.length - 1; i >= 0; i--) {
      boolean alone = withinWeek && i + 1 < values.length && week[i + 1] != week[i];
      suffix[i] = alone ? values[i] : Math.max(values[i], suffix[i + 1]);
    }
    return suffix;
  }

  /** Visits with the preferred therapist in the best run. */
  int preferred() {
    return (int) ((total + PREFERRED - 1) >> 40);
  }

  /** Whether less distance, or the same and earlier starts; both with the same number of visits. */
  boolean isBetterThan(RunSearch<K> other) {
    if (total != other.total) {
      return total > other.total;
    }
    List<Slot<K>> mine = visits();
    List<Slot<K>> theirs = other.visits();
    for (int i = 0; i < mine.size(); i++) {
      int order = mine.get(i).start().compareTo(theirs.get(i).start());
      if (order != 0) {
        return order < 0;
      }
    }
    return false;
  }

  /** The best run, built by taking the earliest slot that still leads to it. */
  List<Slot<K>> visits() {
    List<Slot<K>> visits = new ArrayList<>(count);
    long goal = total;
    int from = 0;
    int before = -1;
    int inWeek = 0;
    for (int left = count; left >= 1; left--) {
      for (int i = from; i < slots.size(); i++) {
        int c = before >= 0 && week[before] == week[i] ? inWeek + 1 : 1;
        if (c < best[left].length && best[left][c][i] == goal) {
          visits.add(slots.get(i));
          goal -= value[i];
          before = i;
          inWeek = c;
          from = nextApart[i];
          break;
        }
      }
    }
    return visits;
  }
}
