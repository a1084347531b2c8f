package clinic.stimshelf.calc.plan;

import static clinic.stimshelf.calc.plan.KeptDay.NONE;

import java.util.Arrays;

/** A good plan quickly: what stands is kept, what is left finds a place, or others make room. */
final class KeptFill {
  /** How many others may move in turn so that one finds a place. */
  private static final int DEPTH = 3;

  private static final long MOST_LOOKS = 200_000;

  private final KeptDay day;
  private long looks;

  KeptFill(KeptDay day) {
    this.day = day;
  }

  int[] best() {
    int[] best = makeRoom(fill(kept()));
    if (day.served(best) < day.size()) {
      int[] anew = makeRoom(dropLatest());
      best = day.better(anew, best) ? anew : best;
    }
    return best;
  }

  private int[] kept() {
    int[] unitOf = new int[day.size()];
    Arrays.fill(unitOf, NONE);
    for (int i = 0; i < unitOf.length; i++) {
      if (day.now(i) >= 0 && free(unitOf, day.now(i), i)) {
        unitOf[i] = day.now(i);
      }
    }
    return unitOf;
  }

  private int[] fill(int[] unitOf) {
    for (int i = 0; i < unitOf.length; i++) {
      if (unitOf[i] == NONE) {
        unitOf[i] = bestFree(unitOf, i);
      }
    }
    return unitOf;
  }

  /** By start; of more than fit at once the one that ends last gives way. */
  private int[] dropLatest() {
    int[] unitOf = new int[day.size()];
    Arrays.fill(unitOf, NONE);
    for (int i = 0; i < unitOf.length; i++) {
      int own = day.now(i);
      unitOf[i] = own >= 0 && free(unitOf, own, i) ? own : bestFree(unitOf, i);
      if (unitOf[i] == NONE) {
        int last = NONE;
        for (int j = 0; j < i; j++) {
          if (unitOf[j] != NONE
              && day.overlap(i, j)
              && day.fits(unitOf[j], i)
              && day.end(j) > day.end(i)
              && (last == NONE || day.end(j) > day.end(last))) {
            last = j;
          }
        }
        if (last != NONE) {
          int unit = unitOf[last];
          unitOf[last] = NONE;
          if (free(unitOf, unit, i)) {
            unitOf[i] = unit;
          } else {
            unitOf[last] = unit;
          }
        }
      }
    }
    return fill(unitOf);
  }

  /** The patient's own, else the one with the fewest channels, else the one given first. */
  private int bestFree(int[] unitOf, int i) {
    int best = NONE;
    for (int u = 0; u < day.unitCount(); u++) {
      if (!free(unitOf, u, i)) {
        continue;
      }
      if (isPatients(unitOf, u, i)) {
        return u;
      }
      if (best == NONE || day.unit(u).channels() < day.unit(best).channels()) {
        best = u;
      }
    }
    return best;
  }

  private boolean isPatients(int[] unitOf, int u, int i) {
    for (int j = i - 1; j >= 0 && day.patient(i) != NONE; j--) {
      if (day.patient(j) == day.patient(i) && unitOf[j] != NONE) {
        return unitOf[j] == u;
      }
    }
    return false;
  }

  private boolean free(int[] unitOf, int u, int i) {
    if (!day.fits(u, i)) {
      return false;
    }
    for (int j = 0; j < unitOf.length; j++) {
      if (unitOf[j] == u && j != i && day.overlap(i, j)) {
        return false;
      }
    }
    return true;
  }

  private int[] makeRoom(int[] unitOf) {
    for (int i = 0; i < unitOf.length; i++) {
      if (unitOf[i] == NONE) {
        looks = 0;
        place(unitOf, i, DEPTH, new boolean[unitOf.length]);
      }
    }
    return unitOf;
  }

  /** Gives treatment i a unit, moving others if need be; leaves all as it was if it cannot. */
  private boolean place(int[] unitOf, int i, int depth, boolean[] fixed) {
    int before = unitOf[i];
    unitOf[i] = NONE;
    int direct = bestFree(unitOf, i);
    if (direct != NONE) {
      unitOf[i] = direct;
      return true;
    }
    fixed[i] = true;
    for (int u = 0; u < day.unitCount() && depth > 0 && looks < MOST_LOOKS; u++) {
      looks += unitOf.length;
      if (day.fits(u, i) && clear(unitOf, u, i, depth, fixed)) {
        fixed[i] = false;
        return true;
      }
    }
    fixed[i] = false;
    unitOf[i] = before;
    return false;
  }

  private boolean clear(int[] unitOf, int u, int i, int depth, boolean[] fixed) {
    int[] saved = unitOf.clone();
    unitOf[i] = u;
    for (int j = 0; j < unitOf.length; j++) {
      if (j != i && saved[j] == u && day.overlap(i, j)) {
        if (fixed[j] || !place(unitOf, j, depth - 1, fixed)) {
          System.arraycopy(saved, 0, unitOf, 0, saved.length);
          return false;
        }
      }
    }
    return true;
  }
}
