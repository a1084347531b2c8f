package clinic.stimshelf.calc.plan;

import static clinic.stimshelf.calc.plan.Day.NONE;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Every plan, treatment by treatment in the order of their starts. Partial plans that leave the
 * same future are one: what matters of a unit is its class, until when it is busy and which
 * patients with more to come had it last; units that agree in this, and all units of a class that
 * do not matter, are interchangeable. So only the best partial plan of each kind is carried on. For
 * at most 64 patients.
 */
final class ExhaustivePlan {

  /** Weighs a served treatment above any number of changes. */
  private static final int SERVED = 1 << 16;

  private final Day day;
  private final long mostSteps;

  /** Of each treatment's patient: a bit where more of theirs are still to come after it. */
  private final long[] bit;

  private final long[] bitIfMore;
  private final int[][] unitsOfClass;

  ExhaustivePlan(Day day, long mostSteps) {
    this.day = day;
    this.mostSteps = mostSteps;
    this.bit = new long[day.size()];
    this.bitIfMore = new long[day.size()];
    long later = 0;
    for (int i = day.size() - 1; i >= 0; i--) {
      bit[i] = day.patient(i) == NONE ? 0 : 1L << day.patient(i);
      bitIfMore[i] = bit[i] & later;
      later |= bit[i];
    }
    this.unitsOfClass = new int[day.classes()][];
    for (int c = 0; c < unitsOfClass.length; c++) {
      List<Integer> units = new ArrayList<>();
      for (int u = 0; u < day.unitCount() && units.size() < day.size(); u++) {
        if (day.classOfUnit(u) == c) {
          units.add(u);
        }
      }
      unitsOfClass[c] = units.stream().mapToInt(Integer::intValue).toArray();
    }
  }

  /** A unit that matters: busy, or the last one of patients with more to come. */
  private record InUse(int unit, int unitClass, int busyUntil, long patients) {

    static final Comparator<InUse> ORDER =
        Comparator.comparingInt(InUse::unitClass)
            .thenComparingInt(InUse::busyUntil)
            .thenComparingLong(InUse::patients);
  }

  private record Partial(@Nullable Partial before, int unit, int score, InUse[] inUse) {

    /** What this partial plan leaves to the future, whichever units stand for it. */
    List<Long> future() {
      List<Long> future = new ArrayList<>(2 * inUse.length);
      for (InUse use : inUse) {
        future.add(((long) use.unitClass << 32) + use.busyUntil);
        future.add(use.patients);
      }
      return future;
    }
  }

  /** The best plan, or an empty array where the steps did not suffice. */
  int[] solve() {
    List<Partial> partials = List.of(new Partial(null, NONE, 0, new InUse[0]));
    long steps = 0;
    for (int i = 0; i < day.size(); i++) {
      Map<List<Long>, Partial> next = new LinkedHashMap<>();
      for (Partial partial : partials) {
        for (Partial longer : extend(partial, i)) {
          if (++steps > mostSteps) {
            return new int[0];
          }
          next.merge(longer.future(), longer, (a, b) -> b.score > a.score ? b : a);
        }
      }
      partials = new ArrayList<>(next.values());
    }
    Partial at = partials.stream().reduce((a, b) -> b.score > a.score ? b : a).orElseThrow();
    int[] unitOf = new int[day.size()];
    for (int i = unitOf.length - 1; i >= 0 && at != null; i--, at = at.before) {
      unitOf[i] = at.unit;
    }
    return unitOf;
  }

  private List<Partial> extend(Partial partial, int i) {
    int previous = NONE;
    for (InUse use : partial.inUse) {
      previous = (use.patients & bit[i]) != 0 ? use.unit : previous;
    }
    List<Partial> longer = new ArrayList<>();
    longer.add(new Partial(partial, NONE, partial.score, after(partial, i, null, NONE)));
    int[] used = new int[day.classes()];
    for (InUse use : partial.inUse) {
      used[use.unitClass]++;
      if (use.busyUntil <= day.start(i) && use.unitClass >= day.need(i)) {
        longer.add(serve(partial, use, i, previous));
      }
    }
    for (int c = day.need(i); c < unitsOfClass.length; c++) {
      if (used[c] < unitsOfClass[c].length) {
        longer.add(serve(partial, new InUse(unused(partial, c), c, 0, 0), i, previous));
      }
    }
    return longer;
  }

  private int unused(Partial partial, int unitClass) {
    for (int unit : unitsOfClass[unitClass]) {
      boolean free = true;
      for (InUse use : partial.inUse) {
        free &= use.unit != unit;
      }
      if (free) {
        return unit;
      }
    }
    throw new IllegalStateException("No unit of class " + unitClass + " is left.");
  }

  private Partial serve(Partial partial, InUse chosen, int i, int previous) {
    int change = previous != NONE && previous != chosen.unit ? 1 : 0;
    return new Partial(
        partial, chosen.unit, partial.score + SERVED - change, after(partial, i, chosen, previous));
  }

  /** Units that still matter once treatment i was served by the chosen unit, or by none. */
  private InUse[] after(Partial partial, int i, @Nullable InUse chosen, int previous) {
    InUse[] after = new InUse[partial.inUse.length + 1];
    int n = 0;
    for (InUse use : partial.inUse) {
      if (chosen != null && use.unit == chosen.unit) {
        continue;
      }
      int busyUntil = use.busyUntil > day.start(i) ? use.busyUntil : 0;
      long patients = use.patients;
      if (chosen != null && use.unit == previous || bitIfMore[i] == 0) {
        patients &= ~bit[i];
      }
      if (busyUntil > 0 || patients != 0) {
        after[n++] = new InUse(use.unit, use.unitClass, busyUntil, patients);
      }
    }
    if (chosen != null) {
      long patients = chosen.patients & ~bit[i] | bitIfMore[i];
      after[n++] = new InUse(chosen.unit, chosen.unitClass, day.end(i), patients);
    }
    after = Arrays.copyOf(after, n);
    Arrays.sort(after, InUse.ORDER);
    return after;
  }
}
