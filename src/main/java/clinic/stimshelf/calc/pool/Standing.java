package clinic.stimshelf.calc.pool;

import clinic.stimshelf.calc.Check;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * Where a request stands among units and other requests.
 *
 * <p>With A requests ahead that want a unit by the day asked about, E that come later in line but
 * want a unit before this one does, X units free before the wished day and Y more by the day asked
 * about, a unit is there if {@code Y >= need(X)}, where {@code need(x)} is A + 1 − x up to x = A,
 * then 1 up to x = A + E, then 0: until the wished day the others take what there is, in their
 * order; from then on only those ahead do. Units come back each independently with its own chance;
 * newcomers come at random (Poisson) and add to A or to E, independent of the returns.
 *
 * @param freeNow suitable units that are free, 0 or more
 * @param returning the other suitable units
 * @param wished days from today on which the unit is wanted, 0 to 100 000
 * @param ahead requests that come first and could use one of these units, and those to come
 * @param earlier the same for those later in line that want one earlier
 */
public record Standing(
    int freeNow, List<Returning> returning, int wished, Rivals ahead, Rivals earlier) {

  private static final double NEGLIGIBLE = 1e-9;
  private static final int MOST_NEWCOMERS = 200;

  /**
   * Other requests.
   *
   * @param wished of each that is made already the days from today on which it wants a unit; past
   *     days count as today
   * @param toCome those that nobody has made yet
   */
  public record Rivals(List<Integer> wished, Newcomers toCome) {
    /** Nobody. */
    public static final Rivals NONE = new Rivals(List.of(), Newcomers.NONE);

    public Rivals {
      wished = List.copyOf(wished);
    }

    private int by(int day) {
      return (int) wished.stream().filter(one -> one <= day).count();
    }
  }

  public Standing {
    Check.within("freeNow", freeNow, 0, 1_000_000);
    Check.within("wished", wished, 0, 100_000);
    returning = List.copyOf(returning);
  }

  /** A unit is wanted today, and nobody else will come. */
  public static Standing of(int freeNow, int ahead, List<Returning> returning) {
    return new Standing(
        freeNow,
        returning,
        0,
        new Rivals(Collections.nCopies(ahead, 0), Newcomers.NONE),
        Rivals.NONE);
  }

  /** The same with one more unit. */
  public Standing with(Returning more) {
    List<Returning> all = new ArrayList<>(returning);
    all.add(more);
    return new Standing(freeNow, all, wished, ahead, earlier);
  }

  /** The same with one of the other units as sure as given instead. */
  public Standing with(int index, Returning instead) {
    List<Returning> all = new ArrayList<>(returning);
    all.set(index, instead);
    return new Standing(freeNow, all, wished, ahead, earlier);
  }

  /** Units that are free or may be back within the horizon. */
  public int countedOn() {
    return freeNow
        + (int) returning.stream().filter(unit -> unit.readyBy(SureBy.HORIZON) > 0).count();
  }

  /** As many requests ahead as units that can be counted on, or more. */
  boolean tooFewUnits() {
    return ahead.wished().size() >= countedOn();
  }

  /**
   * The chance that a unit is there by the end of a day, from the wished one on.
   *
   * @param day days from today, 0 to 100 000
   */
  public double chanceOn(int day) {
    Check.within("day", day, 0, 100_000);
    double[] by = returning.stream().mapToDouble(unit -> unit.readyBy(day)).toArray();
    double moreAhead = mean(ahead, day);
    double moreEarlier = wished == 0 ? 0 : mean(earlier, day);
    int knownEarlier = wished == 0 ? 0 : earlier.wished().size();
    int knownAhead = ahead.by(day);
    if (moreAhead == 0 && moreEarlier == 0 && knownEarlier == 0) {
      return Availability.atLeast(knownAhead + 1 - freeNow, by);
    }
    double[][] back = back(by);
    double[] newAhead = poisson(moreAhead);
    double[] newEarlier = poisson(moreEarlier);
    double chance = 0;
    for (int a = 0; a < newAhead.length; a++) {
      for (int e = 0; e < newEarlier.length; e++) {
        chance += newAhead[a] * newEarlier[e] * chance(back, knownAhead + a, knownEarlier + e);
      }
    }
    return Math.min(1, chance);
  }

  private double chance(double[][] back, int ahead, int earlier) {
    double chance = 0;
    for (int x = 0; x < back.length; x++) {
      int there = freeNow + x;
      int need = there <= ahead ? ahead + 1 - there : there <= ahead + earlier ? 1 : 0;
      if (need < back.length - x) {
        chance += back[x][need];
      }
    }
    return chance;
  }

  /** {@code [x][y]}: the chance that x units are back before the wished day and y or more later. */
  private double[][] back(double[] by) {
    int units = by.length;
    double[][] mass = new double[units + 1][];
    for (int x = 0; x <= units; x++) {
      mass[x] = new double[units + 1 - x];
    }
    mass[0][0] = 1;
    for (int i = 0; i < units; i++) {
      double before = wished == 0 ? 0 : returning.get(i).readyBy(wished - 1);
      double after = Math.max(0, by[i] - before);
      double not = Math.max(0, 1 - before - after);
      for (int x = i + 1; x >= 0; x--) {
        for (int y = i + 1 - x; y >= 0; y--) {
          mass[x][y] =
              (x + y <= i ? mass[x][y] * not : 0)
                  + (x > 0 ? mass[x - 1][y] * before : 0)
                  + (y > 0 ? mass[x][y - 1] * after : 0);
        }
      }
    }
    for (double[] later : mass) {
      for (int y = later.length - 2; y >= 0; y--) {
        later[y] += later[y + 1];
      }
    }
    return mass;
  }

  private static double mean(Rivals rivals, int day) {
    return Check.within("newcomers", rivals.toCome().expectedBy(day), 0, MOST_NEWCOMERS);
  }

  /** As far as it matters; a mean of 200 and less begins at e^−200 or above. */
  private static double[] poisson(double mean) {
    List<Double> masses = new ArrayList<>();
    double mass = Math.exp(-mean);
    for (int n = 0; n <= mean || mass > NEGLIGIBLE; n++) {
      masses.add(mass);
      mass *= mean / (n + 1);
    }
    return masses.stream().mapToDouble(Double::doubleValue).toArray();
  }
}
