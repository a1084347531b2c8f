package clinic.stimshelf.calc.plan;

import clinic.stimshelf.calc.BadInput;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Which unit serves which treatment. A unit serves one treatment at a time and has at least the
 * treatment's channels. First as many treatments as possible are served; then patients change units
 * as rarely as possible from one of their served treatments to the next (by start, then as given).
 *
 * <p>Intervals that all fit any unit are served in the greatest number by dropping, whenever more
 * run at once than there are units, the one that ends last (Faigle and Nawijn 1995, <i>Discrete
 * Appl Math</i> 58:13-17; from memory), and as many units as run at once are always enough
 * (interval graphs are perfect: Kleinberg and Tardos 2006, <i>Algorithm Design</i>, section 4.1).
 * With several classes of channels, and for the fewest changes, small plans are searched
 * exhaustively; larger ones get the best that was found, and {@code servedProven} and {@code
 * changesProven} say whether it reaches a bound.
 *
 * @param assignments in the order of the treatments given
 * @param unserved ids of treatments without a unit, in the order given
 * @param peak the greatest number of treatments that run at once, served or not
 * @param unitChanges changes of unit, summed over all patients
 * @param servedProven whether no plan serves more
 * @param changesProven whether no plan that serves as many changes less
 */
public record UnitPlan(
    List<Assignment> assignments,
    List<String> unserved,
    int peak,
    int unitChanges,
    boolean servedProven,
    boolean changesProven) {

  /** A treatment with its unit, by their ids. */
  public record Assignment(String treatment, String unit) {}

  private static final int MOST = 10_000;

  /** Treatments up to which every plan is compared. */
  private static final int EXHAUSTIVE = 12;

  /** Treatments up to which an exhaustive search may still come to its end. */
  private static final int WORTH_SEARCHING = 40;

  /** Partial plans that such a search may look at before the quick plan stands. */
  private static final long SEARCH_STEPS = 50_000;

  public UnitPlan {
    assignments = List.copyOf(assignments);
    unserved = List.copyOf(unserved);
  }

  /**
   * Plans units for treatments.
   *
   * @param units any number up to 10 000, none included
   * @param treatments up to 10 000
   * @throws BadInput if there are more, or an id is given twice
   */
  public static UnitPlan of(List<PlanUnit> units, List<Treatment> treatments) {
    requireUnique("units", units.stream().map(PlanUnit::id).toList());
    requireUnique("treatments", treatments.stream().map(Treatment::id).toList());
    Day day = Day.of(units, treatments);
    if (day.size() <= EXHAUSTIVE) {
      return plan(day, new ExhaustivePlan(day, Long.MAX_VALUE).solve(), true, true);
    }
    int[] quick = QuickPlan.of(day);
    boolean servedProven = day.served(quick) >= day.mostServed();
    boolean changesProven =
        servedProven && day.changes(quick) <= day.fewestChanges(day.served(quick));
    if (!changesProven && day.size() <= WORTH_SEARCHING) {
      int[] exact = new ExhaustivePlan(day, SEARCH_STEPS).solve();
      if (exact.length > 0) {
        return plan(day, exact, true, true);
      }
    }
    return plan(day, quick, servedProven, changesProven);
  }

  private static UnitPlan plan(Day day, int[] unitOf, boolean servedProven, boolean changesProven) {
    List<Assignment> assignments = new ArrayList<>();
    List<String> unserved = new ArrayList<>();
    int[] given = day.inGivenOrder(unitOf);
    for (int i = 0; i < given.length; i++) {
      String id = day.treatment(i).id();
      if (given[i] >= 0) {
        assignments.add(new Assignment(id, day.unit(given[i]).id()));
      } else {
        unserved.add(id);
      }
    }
    return new UnitPlan(
        assignments, unserved, day.peak(), day.changes(unitOf), servedProven, changesProven);
  }

  private static void requireUnique(String field, Collection<String> ids) {
    if (ids.size() > MOST) {
      throw new BadInput(field, ids.size() + " " + field + " are more than 10 000; plan a day.");
    }
    Set<String> seen = new HashSet<>();
    for (String id : ids) {
      if (!seen.add(id)) {
        throw new BadInput(field, "The id " + id + " stands twice in " + field + ".");
      }
    }
  }
}
