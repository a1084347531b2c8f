package clinic.stimshelf.calc.plan;

import clinic.stimshelf.calc.BadInput;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Which unit serves which treatment of a day, where units have other things to do in between and a
 * plan is laid already. Lexicographic: most treatments served; fewest that lose the unit they have
 * now; fewest changes of unit from one treatment of a patient to the next.
 *
 * <p>A quick plan is taken where it reaches bounds that no plan exceeds: for each number of
 * channels, those that need it share the units that have it, with the units' own busy times among
 * them; of more than fit at once the one that ends last gives way (Faigle and Nawijn 1995,
 * <i>Discrete Appl Math</i> 58:13-17; from memory). Otherwise every plan is compared, joining
 * partial ones that leave the same future, for as many steps as are allowed; {@code proven} says
 * whether that came to its end.
 *
 * @param unitOf unit by treatment, of those that are served, in the order given
 * @param unserved ids of treatments without a unit, in the order given
 * @param peak the greatest number of treatments that run at once
 * @param moved how many have another unit than before, or had one and have none
 * @param unitChanges changes of unit from one treatment of a patient to the next
 * @param servedProven whether no plan serves more
 * @param proven whether no plan is better in any way
 */
public record KeptPlan(
    Map<String, String> unitOf,
    List<String> unserved,
    int peak,
    int moved,
    int unitChanges,
    boolean servedProven,
    boolean proven) {

  private static final int MOST = 1_000;
  private static final long STEPS = 60_000;

  public KeptPlan {
    unitOf = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(unitOf));
    unserved = List.copyOf(unserved);
  }

  /**
   * Plans a day.
   *
   * @param units up to 1 000; of several that do as well, the one given first is taken
   * @param treatments up to 1 000
   * @param now unit by treatment as it stands; a unit that is not among those given is gone
   * @throws BadInput if there are more, or an id is given twice
   */
  public static KeptPlan of(
      List<BusyUnit> units, List<Treatment> treatments, Map<String, String> now) {
    return of(units, treatments, now, STEPS);
  }

  /** The quick plan alone, for looks at many days; {@code servedProven} says if it will do. */
  public static KeptPlan quick(
      List<BusyUnit> units, List<Treatment> treatments, Map<String, String> now) {
    return of(units, treatments, now, 0);
  }

  static KeptPlan of(
      List<BusyUnit> units, List<Treatment> treatments, Map<String, String> now, long steps) {
    requireUnique("units", units.stream().map(BusyUnit::id).toList());
    requireUnique("treatments", treatments.stream().map(Treatment::id).toList());
    KeptDay day = new KeptDay(units, treatments, now);
    int[] quick = new KeptFill(day).best();
    boolean served = day.served(quick) >= day.mostServed();
    boolean proven =
        served
            && day.served(quick) == day.size()
            && day.moved(quick) <= day.forcedMoves()
            && day.changes(quick) == 0;
    if (!proven && steps > 0) {
      int[] exact = new KeptSearch(day, steps).solve();
      if (exact.length == day.size()) {
        return plan(day, exact, true, true);
      }
    }
    return plan(day, quick, served, proven);
  }

  private static KeptPlan plan(KeptDay day, int[] unitOf, boolean served, boolean proven) {
    Map<String, String> found = new java.util.LinkedHashMap<>();
    List<String> unserved = new ArrayList<>();
    int[] given = day.inGivenOrder(unitOf);
    for (int i = 0; i < given.length; i++) {
      String id = day.given(i).id();
      if (given[i] >= 0) {
        found.put(id, day.unit(given[i]).id());
      } else {
        unserved.add(id);
      }
    }
    return new KeptPlan(
        found, unserved, day.peak(), day.moved(unitOf), day.changes(unitOf), served, proven);
  }

  private static void requireUnique(String field, List<String> ids) {
    if (ids.size() > MOST) {
      throw new BadInput(field, ids.size() + " " + field + " are more than 1 000; plan a day.");
    }
    Set<String> seen = new HashSet<>();
    for (String id : ids) {
      if (!seen.add(id)) {
        throw new BadInput(field, "The id " + id + " stands twice in " + field + ".");
      }
    }
  }
}
