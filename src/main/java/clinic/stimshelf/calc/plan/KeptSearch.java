package clinic.stimshelf.calc.plan;

import static clinic.stimshelf.calc.plan.KeptDay.NONE;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Every plan, treatment by treatment in the order of their starts. Partial plans that leave the
 * same future are one: what matters of a unit is its group, until when it serves, and which
 * patients with more to come had it last.
 */
final class KeptSearch {
  private static final long SERVED = 1L << 40;
  private static final long MOVED = 1L << 20;

  /** Patients of a bit each. */
  private static final int MOST_PATIENTS = 64;

  private final KeptDay day;
  private final long mostSteps;
  private final long[] bit;
  private final long[] bitIfMore;
  private final int[][] unitsOfGroup;

  KeptSearch(KeptDay day, long mostSteps) {
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
    List<List<Integer>> groups = new ArrayList<>();
    for (int g = 0; g < day.groups(); g++) {
      groups.add(new ArrayList<>());
    }
    for (int u = 0; u < day.unitCount(); u++) {
      groups.get(day.group(u)).add(u);
    }
    unitsOfGroup =
        groups.stream()
            .map(units -> units.stream().mapToInt(Integer::intValue).toArray())
            .toArray(int[][]::new);
  }

  /** A unit that matters. */
  private record InUse(int unit, int group, long until, long patients) {
    static final Comparator<InUse> ORDER =
        Comparator.comparingInt(InUse::group)
            .thenComparingLong(InUse::until)
            .thenComparingLong(InUse::patients);
  }

  private record Partial(@Nullable Partial before, int unit, long score, InUse[] inUse) {

    List<Long> future() {
      List<Long> future = new ArrayList<>(3 * inUse.length);
      for (InUse use : inUse) {
        future.add((long) use.group);
        future.add(use.until);
        future.add(use.patients);
      }
      return future;
    }
  }

  /** The best plan, or an array of another length where the steps did not suffice. */
  int[] solve() {
    if (day.patients() > MOST_PATIENTS) {
      return new int[day.size() + 1];
    }
    List<Partial> partials = List.of(new Partial(null, NONE, 0, new InUse[0]));
    long steps = 0;
    for (int i = 0; i < day.size(); i++) {
      Map<List<Long>, Partial> next = new LinkedHashMap<>();
      for (Partial partial : partials) {
        for (Partial longer : extend(partial, i)) {
          if (++steps > mostSteps) {
            return new int[day.size() + 1];
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
    long unserved = partial.score - (day.moves(i, NONE) ? MOVED : 0);
    longer.add(new Partial(partial, NONE, unserved, after(partial, i, null, NONE)));
    for (InUse use : partial.inUse) {
      if (use.until <= day.start(i) && day.fits(use.unit, i)) {
        longer.add(serve(partial, use, i, previous));
      }
    }
    for (int group = 0; group < unitsOfGroup.length; group++) {
      int unit = unused(partial, group);
      if (unit != NONE && day.fits(unit, i)) {
        longer.add(serve(partial, new InUse(unit, group, Long.MIN_VALUE, 0), i, previous));
      }
    }
    return longer;
  }

  private int unused(Partial partial, int group) {
    for (int unit : unitsOfGroup[group]) {
      boolean free = true;
      for (InUse use : partial.inUse) {
        free &= use.unit != unit;
      }
      if (free) {
        return unit;
      }
    }
    return NONE;
  }

  private Partial serve(Partial partial, InUse chosen, int i, int previous) {
    long score =
        partial.score
            + SERVED
            - (day.moves(i, chosen.unit) ? MOVED : 0)
            - (previous != NONE && previous != chosen.unit ? 1 : 0);
    return new Partial(partial, chosen.unit, score, after(partial, i, chosen, previous));
  }

  /** Units that still matter once treatment i was served by the chosen unit, or by none. */
  private InUse[] after(Partial partial, int i, @Nullable InUse chosen, int previous) {
    InUse[] after = new InUse[partial.inUse.length + 1];
    int n = 0;
    for (InUse use : partial.inUse) {
      if (chosen != null && use.unit == chosen.unit) {
        continue;
      }
      long until = use.until > day.start(i) ? use.until : Long.MIN_VALUE;
      long patients = use.patients;
      if ((chosen != null && use.unit == previous) || bitIfMore[i] == 0) {
        patients &= ~bit[i];
      }
      if (until > Long.MIN_VALUE || patients != 0) {
        after[n++] = new InUse(use.unit, use.group, until, patients);
      }
    }
    if (chosen != null) {
      long patients = (chosen.patients & ~bit[i]) | bitIfMore[i];
      after[n++] = new InUse(chosen.unit, chosen.group, day.end(i), patients);
    }
    after = Arrays.copyOf(after, n);
    Arrays.sort(after, InUse.ORDER);
    return after;
  }
}
