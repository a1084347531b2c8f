package clinic.stimshelf.calc.plan;

import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.IntStream;

/**
 * A plan's question in numbers: treatments by start, times as ranks, channels as classes (the
 * larger the class, the fewer units fit), patients as indexes. A plan is an array with a unit's
 * index, or −1, for each treatment in this order.
 */
final class Day {

  /** Instead of an index where there is none. */
  static final int NONE = -1;

  /** Classes for which a bound is taken; with more, a part of them must do. */
  private static final int MOST_BOUNDS = 64;

  private final List<PlanUnit> units;
  private final List<Treatment> treatments;
  private final Integer[] order;
  private final int[] start;
  private final int[] end;
  private final int[] need;
  private final int[] patient;
  private final int[] classOfUnit;
  private final int classes;
  private final int patients;

  private Day(List<PlanUnit> units, List<Treatment> treatments) {
    this.units = units;
    this.treatments = treatments;
    int n = treatments.size();
    order = IntStream.range(0, n).boxed().toArray(Integer[]::new);
    Arrays.sort(order, Comparator.comparing(i -> treatments.get(i).time().start()));
    TreeSet<LocalDateTime> moments = new TreeSet<>();
    TreeSet<Integer> channels = new TreeSet<>();
    for (Treatment treatment : treatments) {
      moments.add(treatment.time().start());
      moments.add(treatment.time().end());
      channels.add(treatment.channels());
    }
    LocalDateTime[] moment = moments.toArray(LocalDateTime[]::new);
    int[] channelsOfClass = channels.stream().mapToInt(Integer::intValue).toArray();
    start = new int[n];
    end = new int[n];
    need = new int[n];
    patient = new int[n];
    Map<String, Integer> patientIndex = new HashMap<>();
    for (int i = 0; i < n; i++) {
      Treatment treatment = treatments.get(order[i]);
      start[i] = Arrays.binarySearch(moment, treatment.time().start());
      end[i] = Arrays.binarySearch(moment, treatment.time().end());
      need[i] = Arrays.binarySearch(channelsOfClass, treatment.channels());
      String keepWith = treatment.keepWith();
      patient[i] =
          keepWith == null
              ? NONE
              : patientIndex.computeIfAbsent(keepWith, key -> patientIndex.size());
    }
    classes = channelsOfClass.length;
    patients = patientIndex.size();
    classOfUnit = new int[units.size()];
    for (int u = 0; u < classOfUnit.length; u++) {
      int found = Arrays.binarySearch(channelsOfClass, units.get(u).channels());
      classOfUnit[u] = found >= 0 ? found : -found - 2;
    }
  }

  static Day of(List<PlanUnit> units, List<Treatment> treatments) {
    return new Day(List.copyOf(units), List.copyOf(treatments));
  }

  int size() {
    return order.length;
  }

  int unitCount() {
    return classOfUnit.length;
  }

  int classes() {
    return classes;
  }

  int patients() {
    return patients;
  }

  int start(int i) {
    return start[i];
  }

  int end(int i) {
    return end[i];
  }

  /** The class that treatment i needs. */
  int need(int i) {
    return need[i];
  }

  /** The patient of treatment i, or {@link #NONE}. */
  int patient(int i) {
    return patient[i];
  }

  /** The largest class that unit u serves, or {@link #NONE}; it serves all smaller ones too. */
  int classOfUnit(int u) {
    return classOfUnit[u];
  }

  boolean fits(int u, int i) {
    return classOfUnit[u] >= need[i];
  }

  PlanUnit unit(int u) {
    return units.get(u);
  }

  /** The treatment that was given i-th. */
  Treatment treatment(int given) {
    return treatments.get(given);
  }

  /** A plan in the order in which the treatments were given. */
  int[] inGivenOrder(int[] unitOf) {
    int[] given = new int[unitOf.length];
    for (int i = 0; i < unitOf.length; i++) {
      given[order[i]] = unitOf[i];
    }
    return given;
  }

  int served(int[] unitOf) {
    return (int) Arrays.stream(unitOf).filter(u -> u != NONE).count();
  }

  /** Pairs of consecutive served treatments of one patient on different units. */
  int changes(int[] unitOf) {
    int[] last = new int[patients];
    Arrays.fill(last, NONE);
    int changes = 0;
    for (int i = 0; i < unitOf.length; i++) {
      int p = patient[i];
      if (p != NONE && unitOf[i] != NONE) {
        changes += last[p] != NONE && last[p] != unitOf[i] ? 1 : 0;
        last[p] = unitOf[i];
      }
    }
    return changes;
  }

  /** Treatments that run at once, at most. */
  int peak() {
    int[] change = new int[2 * size() + 1];
    for (int i = 0; i < size(); i++) {
      change[start[i]]++;
      change[end[i]]--;
    }
    int running = 0;
    int peak = 0;
    for (int step : change) {
      running += step;
      peak = Math.max(peak, running);
    }
    return peak;
  }

  /**
   * A number of treatments that no plan exceeds: for each class, those that need it or more share
   * the units that have it or more, and all others are taken as served. With one class it is
   * reached.
   */
  int mostServed() {
    int bound = size();
    int stride = Math.max(1, classes / MOST_BOUNDS);
    for (int c = 0; c < classes; c += stride) {
      int from = c;
      int count = (int) Arrays.stream(need).filter(needed -> needed >= from).count();
      bound = Math.min(bound, size() - count + mostOf(c, unitsFrom(c)).cardinality());
    }
    return bound;
  }

  int unitsFrom(int c) {
    return (int) Arrays.stream(classOfUnit).filter(k -> k >= c).count();
  }

  /** As many treatments of class c or more as k like units can serve. */
  BitSet mostOf(int c, int k) {
    BitSet kept = new BitSet(size());
    TreeSet<Integer> running =
        new TreeSet<>(Comparator.<Integer>comparingInt(i -> end[i]).thenComparingInt(i -> i));
    for (int i = 0; i < size(); i++) {
      if (need[i] < c) {
        continue;
      }
      while (!running.isEmpty() && end[running.first()] <= start[i]) {
        running.pollFirst();
      }
      running.add(i);
      kept.set(i);
      if (running.size() > k) {
        kept.clear(running.pollLast());
      }
    }
    return kept;
  }

  /**
   * Changes that no plan avoids: where all are served, treatments of one patient that follow one
   * another before the first has ended.
   */
  int fewestChanges(int served) {
    if (served < size()) {
      return 0;
    }
    int[] last = new int[patients];
    Arrays.fill(last, NONE);
    int forced = 0;
    for (int i = 0; i < size(); i++) {
      int p = patient[i];
      if (p != NONE) {
        forced += last[p] != NONE && end[last[p]] > start[i] ? 1 : 0;
        last[p] = i;
      }
    }
    return forced;
  }
}
