package clinic.stimshelf.calc.plan;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.calc.days.Span;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** A plan of the day with units that are busy in between, against every plan there is. */
class KeptPlanTest {
  private static final LocalDateTime MIDNIGHT = LocalDateTime.parse("2026-05-04T00:00");

  @Test
  void whatStandsIsKeptAndOnlyWhatMustMovesMoves() {
    List<Treatment> treatments =
        List.of(
            treatment("a", 0, 30, 2, null),
            treatment("b", 15, 45, 2, null),
            treatment("c", 30, 60, 2, null));
    List<BusyUnit> units = List.of(unit("U1"), unit("U2"), unit("U3"));
    Map<String, String> now = Map.of("a", "U2", "b", "U1", "c", "U2");
    KeptPlan same = KeptPlan.of(units, treatments, now);
    assertThat(same.unitOf()).isEqualTo(now);
    assertThat(same.moved()).isZero();
    KeptPlan without = KeptPlan.of(List.of(unit("U1"), unit("U3")), treatments, now);
    assertThat(without.unserved()).isEmpty();
    assertThat(without.unitOf()).containsEntry("b", "U1");
    assertThat(without.moved()).as("a and c, whose unit is gone").isEqualTo(2);
  }

  @Test
  void aUnitIsNotPlannedWhileItIsBusyAndIsAgainAfterwards() {
    KeptPlan plan =
        KeptPlan.of(
            List.of(unit("U1", span(10, 20), span(18, 30))),
            List.of(
                treatment("before", 0, 10, 2, null),
                treatment("during", 25, 35, 2, null),
                treatment("after", 30, 40, 2, null)),
            Map.of());
    assertThat(plan.unitOf()).containsOnlyKeys("before", "after");
    assertThat(plan.unserved()).containsExactly("during");
  }

  @Test
  void servingOneMoreIsWorthMovingOthers() {
    // Only U4 has four channels; a stands on it and must give way.
    KeptPlan plan =
        KeptPlan.of(
            List.of(new BusyUnit("U2", 2, List.of()), new BusyUnit("U4", 4, List.of())),
            List.of(treatment("a", 0, 30, 2, null), treatment("b", 10, 40, 4, null)),
            Map.of("a", "U4"));
    assertThat(plan.unitOf()).containsEntry("a", "U2").containsEntry("b", "U4");
    assertThat(plan.moved()).isEqualTo(1);
  }

  @Property(tries = 400)
  void noPlanIsBetterThanTheOneFound(@ForAll long seed) {
    Random random = new Random(seed);
    List<BusyUnit> units = new ArrayList<>();
    int count = random.nextInt(4);
    for (int u = 0; u < count; u++) {
      List<Span<LocalDateTime>> busy = new ArrayList<>();
      for (int b = random.nextInt(3); b > 0; b--) {
        int from = random.nextInt(12);
        busy.add(span(from, from + 1 + random.nextInt(4)));
      }
      units.add(new BusyUnit("U" + u, 2 + 2 * random.nextInt(2), busy));
    }
    List<Treatment> treatments = new ArrayList<>();
    Map<String, String> now = new HashMap<>();
    int many = 1 + random.nextInt(6);
    for (int t = 0; t < many; t++) {
      int from = random.nextInt(12);
      treatments.add(
          treatment(
              "t" + t,
              from,
              from + 1 + random.nextInt(5),
              2 + 2 * random.nextInt(2),
              random.nextBoolean() ? "P" + random.nextInt(2) : null));
      if (random.nextBoolean()) {
        now.put("t" + t, "U" + random.nextInt(4));
      }
    }
    KeptPlan plan = KeptPlan.of(units, treatments, now);
    assertThat(plan.proven()).isTrue();
    KeptDay day = new KeptDay(units, treatments, now);
    int[] yardstick = new int[many];
    java.util.Arrays.fill(yardstick, KeptDay.NONE);
    yardstick = every(day, yardstick.clone(), 0, yardstick);
    assertThat(plan.unitOf()).as("served").hasSize(day.served(yardstick));
    assertThat(plan.moved()).as("moved").isEqualTo(day.moved(yardstick));
    assertThat(plan.unitChanges()).as("changes").isEqualTo(day.changes(yardstick));
    assertThat(day.mostServed()).isGreaterThanOrEqualTo(day.served(yardstick));
    assertFeasible(plan, units, treatments);
  }

  /** A day too large for the yardstick: feasible, and where units are alike, the overlap bound. */
  @Property(tries = 60)
  void aFullDayReachesTheOverlapBoundWhereUnitsAreAlike(@ForAll long seed) {
    Random random = new Random(seed);
    List<BusyUnit> units = new ArrayList<>();
    for (int u = 0; u < 8; u++) {
      units.add(unit("U" + u));
    }
    List<Treatment> treatments = new ArrayList<>();
    for (int t = 0; t < 90; t++) {
      int from = 15 * random.nextInt(40);
      treatments.add(treatment("t" + t, from, from + 20 + random.nextInt(40), 2, "P" + t));
    }
    KeptPlan plan = KeptPlan.of(units, treatments, Map.of());
    KeptDay day = new KeptDay(units, treatments, Map.of());
    assertThat(plan.unitOf()).hasSize(day.mostServed());
    assertThat(plan.servedProven()).isTrue();
    assertFeasible(plan, units, treatments);
    List<BusyUnit> fewer = units.subList(1, 8);
    KeptPlan again = KeptPlan.of(fewer, treatments, plan.unitOf());
    assertFeasible(again, fewer, treatments);
  }

  private static int[] every(KeptDay day, int[] plan, int i, int[] best) {
    if (i == plan.length) {
      return day.better(plan, best) ? plan.clone() : best;
    }
    int[] found = every(day, plan, i + 1, best);
    for (int u = 0; u < day.unitCount(); u++) {
      boolean free = day.fits(u, i);
      for (int j = 0; j < i; j++) {
        free &= plan[j] != u || !day.overlap(i, j);
      }
      if (free) {
        plan[i] = u;
        found = every(day, plan, i + 1, found);
        plan[i] = KeptDay.NONE;
      }
    }
    return found;
  }

  private static void assertFeasible(
      KeptPlan plan, List<BusyUnit> units, List<Treatment> treatments) {
    Map<String, BusyUnit> byId = new HashMap<>();
    units.forEach(unit -> byId.put(unit.id(), unit));
    Map<String, List<Treatment>> served = new HashMap<>();
    for (Treatment one : treatments) {
      String unit = plan.unitOf().get(one.id());
      assertThat(unit == null).isEqualTo(plan.unserved().contains(one.id()));
      if (unit != null) {
        assertThat(byId.get(unit).freeFor(one)).isTrue();
        for (Treatment other : served.computeIfAbsent(unit, key -> new ArrayList<>())) {
          assertThat(other.time().overlaps(one.time())).isFalse();
        }
        served.get(unit).add(one);
      }
    }
  }

  @SafeVarargs
  private static BusyUnit unit(String id, Span<LocalDateTime>... busy) {
    return new BusyUnit(id, 2, List.of(busy));
  }

  private static Span<LocalDateTime> span(int from, int to) {
    return Span.of(MIDNIGHT.plusMinutes(from), MIDNIGHT.plusMinutes(to));
  }

  private static Treatment treatment(
      String id, int from, int to, int channels, @Nullable String who) {
    return new Treatment(id, span(from, to), channels, who);
  }
}
