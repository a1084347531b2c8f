package clinic.stimshelf.calc.plan;

import static clinic.stimshelf.calc.plan.Day.NONE;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

/**
 * A good plan for many treatments, quickly. With one class of channels it serves the most that can
 * be served: each chosen treatment gets the unit its patient had last where that is free, else one
 * that no patient is waiting for. With several classes the best of a few ways of filling the day
 * counts. Afterwards two units swap all that follows a moment wherever that saves a change.
 */
final class QuickPlan {

  private static final long MOST_SWAP_STEPS = 5_000_000;

  private final Day day;
  private final int[] nextOfPatient;

  private QuickPlan(Day day) {
    this.day = day;
    this.nextOfPatient = new int[day.size()];
    int[] next = new int[day.patients()];
    Arrays.fill(next, Integer.MAX_VALUE);
    for (int i = day.size() - 1; i >= 0; i--) {
      int p = day.patient(i);
      nextOfPatient[i] = p == NONE ? Integer.MAX_VALUE : next[p];
      if (p != NONE) {
        next[p] = i;
      }
    }
  }

  static int[] of(Day day) {
    QuickPlan plan = new QuickPlan(day);
    List<int[]> tries = new ArrayList<>();
    if (day.classes() == 1) {
      tries.add(plan.assign(day.mostOf(0, day.unitsFrom(0))));
    } else {
      tries.addAll(new ClassFill(day).tries());
    }
    tries.forEach(plan::swapTails);
    int[] best = tries.get(0);
    for (int[] unitOf : tries) {
      int more = day.served(unitOf) - day.served(best);
      if (more > 0 || (more == 0 && day.changes(unitOf) < day.changes(best))) {
        best = unitOf;
      }
    }
    return best;
  }

  /** Each chosen treatment by start; with one class a chosen one always finds a free unit. */
  private int[] assign(BitSet chosen) {
    int[] unitOf = new int[day.size()];
    Arrays.fill(unitOf, NONE);
    int[] busyUntil = new int[day.unitCount()];
    int[] wantedAt = new int[day.unitCount()];
    Arrays.fill(wantedAt, Integer.MAX_VALUE);
    int[] lastUnit = new int[day.patients()];
    Arrays.fill(lastUnit, NONE);
    for (int i = chosen.nextSetBit(0); i >= 0; i = chosen.nextSetBit(i + 1)) {
      int p = day.patient(i);
      int own = p == NONE ? NONE : lastUnit[p];
      int unit =
          own != NONE && busyUntil[own] <= day.start(i) ? own : freeUnit(i, busyUntil, wantedAt);
      unitOf[i] = unit;
      busyUntil[unit] = day.end(i);
      wantedAt[unit] = nextOfPatient[i];
      if (p != NONE) {
        lastUnit[p] = unit;
      }
    }
    return unitOf;
  }

  /** The free unit whose last patient comes again the latest, or never. */
  private int freeUnit(int i, int[] busyUntil, int[] wantedAt) {
    int best = NONE;
    for (int u = 0; u < busyUntil.length; u++) {
      if (day.fits(u, i)
          && busyUntil[u] <= day.start(i)
          && (best == NONE || wantedAt[u] > wantedAt[best])) {
        best = u;
        if (wantedAt[u] == Integer.MAX_VALUE) {
          break;
        }
      }
    }
    return best;
  }

  /** Wherever a patient changes units, tries to swap what follows on the two. */
  private void swapTails(int[] unitOf) {
    long steps = 0;
    int changes = day.changes(unitOf);
    boolean better = true;
    while (better && changes > 0 && steps < MOST_SWAP_STEPS) {
      better = false;
      int[] last = new int[day.patients()];
      Arrays.fill(last, NONE);
      for (int i = 0; i < day.size() && steps < MOST_SWAP_STEPS; i++) {
        int p = day.patient(i);
        if (p == NONE || unitOf[i] == NONE) {
          continue;
        }
        if (last[p] != NONE && unitOf[last[p]] != unitOf[i]) {
          int a = unitOf[last[p]];
          int b = unitOf[i];
          steps += 2L * day.size();
          if (canSwap(unitOf, a, b, i)) {
            swap(unitOf, a, b, i);
            steps += 2L * day.size();
            int after = day.changes(unitOf);
            if (after < changes) {
              changes = after;
              better = true;
            } else {
              swap(unitOf, a, b, i);
            }
          }
        }
        last[p] = i;
      }
    }
  }

  private boolean canSwap(int[] unitOf, int a, int b, int from) {
    for (int i = 0; i < day.size(); i++) {
      if (unitOf[i] != a && unitOf[i] != b) {
        continue;
      }
      boolean later = day.start(i) >= day.start(from);
      if (later ? !day.fits(unitOf[i] == a ? b : a, i) : day.end(i) > day.start(from)) {
        return false;
      }
    }
    return true;
  }

  private void swap(int[] unitOf, int a, int b, int from) {
    for (int i = 0; i < day.size(); i++) {
      if (day.start(i) >= day.start(from)) {
        unitOf[i] = unitOf[i] == a ? b : unitOf[i] == b ? a : unitOf[i];
      }
    }
  }
}
