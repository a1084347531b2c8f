package clinic.stimshelf.calc.plan;

import static clinic.stimshelf.calc.plan.Day.NONE;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Ways of filling a day with several classes of channels. None is best for every day, so that the
 * caller compares them.
 */
final class ClassFill {

  /** Treatments looked at for one that could be dropped. */
  private static final int MOST_LOOKS = 200;

  /** Units looked at while filling by end, and once more while pushing in. */
  private static final long MOST_UNIT_LOOKS = 1_000_000;

  private final Day day;

  ClassFill(Day day) {
    this.day = day;
  }

  List<int[]> tries() {
    List<int[]> tries = new ArrayList<>();
    tries.add(byStart(true));
    tries.add(byStart(false));
    if ((long) day.size() * day.unitCount() <= MOST_UNIT_LOOKS) {
      tries.add(byEnd());
    }
    tries.forEach(this::pushIn);
    return tries;
  }

  /**
   * Each treatment by start into the smallest free unit that fits, or the patient's own; where none
   * is free, the one that ends last among those running on fitting units gives way if it ends
   * later.
   */
  private int[] byStart(boolean preferOwn) {
    int[] unitOf = new int[day.size()];
    Arrays.fill(unitOf, NONE);
    int[] lastUnit = new int[day.patients()];
    Arrays.fill(lastUnit, NONE);
    TreeMap<Integer, TreeSet<Integer>> free = new TreeMap<>();
    for (int u = 0; u < day.unitCount(); u++) {
      release(free, u);
    }
    PriorityQueue<Integer> ending = new PriorityQueue<>(Comparator.comparingInt(day::end));
    TreeSet<Integer> running =
        new TreeSet<>(Comparator.<Integer>comparingInt(day::end).thenComparingInt(i -> i));
    for (int i = 0; i < day.size(); i++) {
      while (!ending.isEmpty() && day.end(ending.element()) <= day.start(i)) {
        int over = ending.remove();
        if (running.remove(over)) {
          release(free, unitOf[over]);
        }
      }
      int p = day.patient(i);
      int own = preferOwn && p != NONE ? lastUnit[p] : NONE;
      int unit = own != NONE && day.fits(own, i) && isFree(free, own) ? own : smallest(free, i);
      if (unit != NONE) {
        take(free, unit);
      } else {
        unit = dropFor(i, running, unitOf);
      }
      if (unit != NONE) {
        unitOf[i] = unit;
        ending.add(i);
        running.add(i);
        if (p != NONE) {
          lastUnit[p] = unit;
        }
      }
    }
    return unitOf;
  }

  private int dropFor(int i, TreeSet<Integer> running, int[] unitOf) {
    int looks = 0;
    for (int other : running.descendingSet()) {
      if (day.end(other) <= day.end(i) || ++looks > MOST_LOOKS) {
        return NONE;
      }
      if (day.fits(unitOf[other], i)) {
        int unit = unitOf[other];
        unitOf[other] = NONE;
        running.remove(other);
        return unit;
      }
    }
    return NONE;
  }

  private void release(TreeMap<Integer, TreeSet<Integer>> free, int u) {
    free.computeIfAbsent(day.classOfUnit(u), c -> new TreeSet<>()).add(u);
  }

  private boolean isFree(TreeMap<Integer, TreeSet<Integer>> free, int u) {
    TreeSet<Integer> units = free.get(day.classOfUnit(u));
    return units != null && units.contains(u);
  }

  private void take(TreeMap<Integer, TreeSet<Integer>> free, int u) {
    TreeSet<Integer> units = free.get(day.classOfUnit(u));
    if (units != null) {
      units.remove(u);
      if (units.isEmpty()) {
        free.remove(day.classOfUnit(u));
      }
    }
  }

  private int smallest(TreeMap<Integer, TreeSet<Integer>> free, int i) {
    var fitting = free.ceilingEntry(day.need(i));
    return fitting == null ? NONE : fitting.getValue().first();
  }

  /**
   * The largest class first, each treatment by its end into the smallest unit that is left idle the
   * shortest time before it.
   */
  private int[] byEnd() {
    int[] unitOf = new int[day.size()];
    Arrays.fill(unitOf, NONE);
    List<TreeSet<Integer>> booked = booked(unitOf);
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < day.size(); i++) {
      order.add(i);
    }
    order.sort(
        Comparator.<Integer>comparingInt(i -> -day.need(i))
            .thenComparingInt(day::end)
            .thenComparingInt(i -> -day.start(i)));
    order.forEach(i -> place(booked, unitOf, i, NONE));
    return unitOf;
  }

  /** Treatments without a unit push out one that can move to another unit. */
  private void pushIn(int[] unitOf) {
    List<TreeSet<Integer>> booked = booked(unitOf);
    long looks = 0;
    for (int i = 0; i < day.size() && looks < MOST_UNIT_LOOKS; i++) {
      if (unitOf[i] != NONE || place(booked, unitOf, i, NONE)) {
        continue;
      }
      looks += day.unitCount();
      for (int u = 0; u < booked.size() && unitOf[i] == NONE && looks < MOST_UNIT_LOOKS; u++) {
        looks++;
        Integer inTheWay = day.fits(u, i) ? soleConflict(booked.get(u), i) : null;
        if (inTheWay == null) {
          continue;
        }
        looks += day.unitCount();
        booked.get(u).remove(inTheWay);
        if (place(booked, unitOf, inTheWay, u)) {
          booked.get(u).add(i);
          unitOf[i] = u;
        } else {
          booked.get(u).add(inTheWay);
        }
      }
    }
  }

  private List<TreeSet<Integer>> booked(int[] unitOf) {
    List<TreeSet<Integer>> booked = new ArrayList<>();
    for (int u = 0; u < day.unitCount(); u++) {
      booked.add(new TreeSet<>(Comparator.comparingInt(day::start)));
    }
    for (int i = 0; i < unitOf.length; i++) {
      if (unitOf[i] != NONE) {
        booked.get(unitOf[i]).add(i);
      }
    }
    return booked;
  }

  private boolean place(List<TreeSet<Integer>> booked, int[] unitOf, int i, int except) {
    int best = NONE;
    int bestClass = Integer.MAX_VALUE;
    int bestIdle = Integer.MAX_VALUE;
    for (int u = 0; u < booked.size(); u++) {
      if (u == except || !day.fits(u, i) || !isFree(booked.get(u), i)) {
        continue;
      }
      Integer before = booked.get(u).floor(i);
      int idle = before == null ? Integer.MAX_VALUE - 1 : day.start(i) - day.end(before);
      int unitClass = day.classOfUnit(u);
      if (unitClass < bestClass || (unitClass == bestClass && idle < bestIdle)) {
        best = u;
        bestClass = unitClass;
        bestIdle = idle;
      }
    }
    if (best != NONE) {
      booked.get(best).add(i);
      unitOf[i] = best;
    }
    return best != NONE;
  }

  private boolean isFree(TreeSet<Integer> booked, int i) {
    Integer before = booked.floor(i);
    Integer after = booked.ceiling(i);
    return (before == null || day.end(before) <= day.start(i))
        && (after == null || day.start(after) >= day.end(i));
  }

  /** The only treatment on a unit that overlaps treatment i; null if there are more. */
  private @Nullable Integer soleConflict(TreeSet<Integer> booked, int i) {
    Integer conflict = null;
    Integer first = booked.floor(i);
    for (int other : first == null ? booked : booked.tailSet(first, true)) {
      if (day.start(other) >= day.end(i)) {
        break;
      }
      if (day.end(other) > day.start(i)) {
        if (conflict != null) {
          return null;
        }
        conflict = other;
      }
    }
    return conflict;
  }
}
