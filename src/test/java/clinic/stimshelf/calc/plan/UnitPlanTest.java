package clinic.stimshelf.calc.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Checks;
import clinic.stimshelf.calc.Checks.Row;
import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.calc.plan.UnitPlan.Assignment;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class UnitPlanTest {

  private static final LocalDateTime MIDNIGHT = LocalDateTime.parse("2026-05-04T00:00");

  static Stream<Row> instances() {
    return Checks.rows("07_interval_scheduling.csv").stream();
  }

  /** Interval scheduling: as many units as run at once are enough, and one less is not. */
  @ParameterizedTest
  @MethodSource("instances")
  void asManyUnitsAsRunAtOnceServeAll(Row row) {
    List<Treatment> treatments = new ArrayList<>();
    for (String interval : row.text("intervals_half_open").split(" ")) {
      String[] ends = interval.split("-");
      treatments.add(
          treatment(
              "t" + treatments.size(),
              Integer.parseInt(ends[0]),
              Integer.parseInt(ends[1]),
              1,
              null));
    }
    int depth = row.whole("min_resources_bruteforce");
    UnitPlan enough = UnitPlan.of(units(depth, 1), treatments);
    assertThat(enough.peak()).isEqualTo(row.whole("max_depth"));
    assertThat(enough.unserved()).isEmpty();
    assertThat(UnitPlan.of(units(depth - 1, 1), treatments).unserved()).isNotEmpty();
    assertThat(UnitPlan.of(units(1, 1), treatments).assignments())
        .hasSize(row.whole("max_compatible_on_one_unit"));
  }

  @Test
  void aUnitNeedsTheChannelsAndPatientsKeepTheirUnit() {
    UnitPlan plan =
        UnitPlan.of(
            List.of(new PlanUnit("two", 2), new PlanUnit("four", 4)),
            List.of(
                treatment("a", 0, 10, 2, "P"),
                treatment("b", 5, 15, 2, "Q"),
                treatment("c", 20, 30, 4, "Q"),
                treatment("d", 20, 30, 2, "P"),
                treatment("e", 40, 50, 8, null)));
    assertThat(plan.assignments())
        .containsExactly(
            new Assignment("a", "two"),
            new Assignment("b", "four"),
            new Assignment("c", "four"),
            new Assignment("d", "two"));
    assertThat(plan.unserved()).containsExactly("e");
    assertThat(plan.unitChanges()).isZero();
    assertThat(plan.peak()).isEqualTo(2);
  }

  @Test
  void overlappingTreatmentsOfOnePatientMustChange() {
    UnitPlan plan =
        UnitPlan.of(
            units(2, 1), List.of(treatment("a", 0, 10, 1, "P"), treatment("b", 0, 10, 1, "P")));
    assertThat(plan.unitChanges()).isEqualTo(1);
    assertThat(plan.changesProven()).isTrue();
  }

  @Test
  void nothingToPlan() {
    assertThat(UnitPlan.of(List.of(), List.of(treatment("a", 0, 1, 1, "P"))).unserved())
        .containsExactly("a");
    assertThat(UnitPlan.of(units(3, 2), List.of()))
        .isEqualTo(new UnitPlan(List.of(), List.of(), 0, 0, true, true));
    assertThatThrownBy(
            () -> UnitPlan.of(List.of(new PlanUnit("u", 1), new PlanUnit("u", 1)), List.of()))
        .isInstanceOf(BadInput.class)
        .hasMessageContaining("twice");
  }

  /** The yardstick: every assignment of up to six treatments, tried one by one. */
  @Property(tries = 150)
  void smallPlansAreTheBestOfAll(
      @ForAll @IntRange(min = 1) int seed,
      @ForAll @IntRange(max = 6) int n,
      @ForAll @IntRange(min = 1, max = 4) int unitCount,
      @ForAll @IntRange(min = 1, max = 3) int classes) {
    Random random = new Random(seed);
    List<PlanUnit> units = new ArrayList<>();
    for (int u = 0; u < unitCount; u++) {
      units.add(new PlanUnit("u" + u, 1 + random.nextInt(classes)));
    }
    List<Treatment> treatments = randomTreatments(random, n, classes, 12, 3);
    UnitPlan plan = UnitPlan.of(units, treatments);
    verify(plan, units, treatments);
    int best = bruteForce(units, treatments, new int[n], 0);
    assertThat(plan.assignments().size() * 100 - plan.unitChanges()).isEqualTo(best);
    assertThat(plan.servedProven() && plan.changesProven()).isTrue();
  }

  /**
   * Larger plans: valid, never above a bound, and as good as the exhaustive answer where proven.
   */
  @Property(tries = 60)
  void largerPlansAreValidAndHonest(
      @ForAll @IntRange(min = 1) int seed,
      @ForAll @IntRange(min = 13, max = 17) int n,
      @ForAll @IntRange(min = 1, max = 5) int unitCount,
      @ForAll @IntRange(min = 1, max = 3) int classes) {
    Random random = new Random(seed);
    List<PlanUnit> units = new ArrayList<>();
    for (int u = 0; u < unitCount; u++) {
      units.add(new PlanUnit("u" + u, 1 + random.nextInt(classes)));
    }
    List<Treatment> treatments = randomTreatments(random, n, classes, 30, 5);
    Day day = Day.of(units, treatments);
    int[] quick = QuickPlan.of(day);
    int[] exact = new ExhaustivePlan(day, Long.MAX_VALUE).solve();
    assertThat(day.served(quick)).isLessThanOrEqualTo(day.served(exact));
    assertThat(day.served(exact)).isLessThanOrEqualTo(day.mostServed());
    if (day.classes() == 1) {
      assertThat(day.served(quick)).isEqualTo(day.served(exact)).isEqualTo(day.mostServed());
    }
    if (day.served(exact) == n) {
      assertThat(day.changes(exact)).isGreaterThanOrEqualTo(day.fewestChanges(n));
    }
    UnitPlan plan = UnitPlan.of(units, treatments);
    verify(plan, units, treatments);
    if (plan.servedProven()) {
      assertThat(plan.assignments()).hasSize(day.served(exact));
    }
    if (plan.changesProven()) {
      assertThat(plan.unitChanges()).isEqualTo(day.changes(exact));
    }
  }

  @Test
  void threeHundredTreatmentsOfOneClassAreServedWithProof() {
    Random random = new Random(3);
    List<Treatment> treatments = randomTreatments(random, 300, 1, 600, 120);
    UnitPlan plan = UnitPlan.of(units(60, 2), treatments);
    verify(plan, units(60, 2), treatments);
    assertThat(plan.servedProven()).isTrue();
  }

  @Test
  void largePlansKeepTheRules() {
    Random random = new Random(4);
    for (int classes : new int[] {1, 40}) {
      List<Treatment> treatments = randomTreatments(random, 5_000, classes, 40_000, 1_000);
      List<PlanUnit> units = new ArrayList<>();
      for (int u = 0; u < 2_000; u++) {
        units.add(new PlanUnit("u" + u, 1 + u % classes));
      }
      UnitPlan plan = UnitPlan.of(units, treatments);
      verify(plan, units, treatments);
      UnitPlan scarce = UnitPlan.of(units.subList(0, 20), treatments);
      verify(scarce, units.subList(0, 20), treatments);
    }
  }

  private static int bruteForce(
      List<PlanUnit> units, List<Treatment> treatments, int[] unitOf, int i) {
    if (i == unitOf.length) {
      Day day = Day.of(units, treatments);
      int[] byStart = new int[unitOf.length];
      int[] position = new int[unitOf.length];
      for (int k = 0; k < position.length; k++) {
        position[k] = k;
      }
      int[] given = day.inGivenOrder(position);
      for (int k = 0; k < unitOf.length; k++) {
        byStart[given[k]] = unitOf[k] - 1;
      }
      return day.served(byStart) * 100 - day.changes(byStart);
    }
    int best = Integer.MIN_VALUE;
    for (int u = 0; u <= units.size(); u++) {
      unitOf[i] = u;
      boolean allowed = u == 0 || units.get(u - 1).channels() >= treatments.get(i).channels();
      for (int j = 0; j < i && u > 0; j++) {
        allowed &= unitOf[j] != u || !treatments.get(j).time().overlaps(treatments.get(i).time());
      }
      if (allowed) {
        best = Math.max(best, bruteForce(units, treatments, unitOf, i + 1));
      }
    }
    return best;
  }

  private static void verify(UnitPlan plan, List<PlanUnit> units, List<Treatment> treatments) {
    Map<String, PlanUnit> unitById = new HashMap<>();
    units.forEach(unit -> unitById.put(unit.id(), unit));
    Map<String, Treatment> byId = new HashMap<>();
    treatments.forEach(treatment -> byId.put(treatment.id(), treatment));
    Map<String, List<Treatment>> onUnit = new HashMap<>();
    for (Assignment assignment : plan.assignments()) {
      Treatment treatment = byId.get(assignment.treatment());
      assertThat(unitById.get(assignment.unit()).channels())
          .isGreaterThanOrEqualTo(treatment.channels());
      onUnit.computeIfAbsent(assignment.unit(), u -> new ArrayList<>()).add(treatment);
    }
    for (List<Treatment> one : onUnit.values()) {
      one.sort(Comparator.comparing(t -> t.time().start()));
      for (int i = 1; i < one.size(); i++) {
        assertThat(one.get(i - 1).time().overlaps(one.get(i).time())).isFalse();
      }
    }
    assertThat(plan.assignments().size() + plan.unserved().size()).isEqualTo(treatments.size());
  }

  private static List<Treatment> randomTreatments(
      Random random, int n, int classes, int horizon, int patients) {
    List<Treatment> treatments = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      int start = random.nextInt(horizon);
      int patient = random.nextInt(patients + 1);
      treatments.add(
          treatment(
              "t" + i,
              start,
              start + 1 + random.nextInt(Math.max(2, horizon / 8)),
              1 + random.nextInt(classes),
              patient == 0 ? null : "p" + patient));
    }
    return treatments;
  }

  private static List<PlanUnit> units(int n, int channels) {
    List<PlanUnit> units = new ArrayList<>();
    for (int u = 0; u < n; u++) {
      units.add(new PlanUnit("u" + u, channels));
    }
    return units;
  }

  private static Treatment treatment(
      String id, int start, int end, int channels, @Nullable String keepWith) {
    return new Treatment(
        id, Span.of(MIDNIGHT.plusMinutes(start), MIDNIGHT.plusMinutes(end)), channels, keepWith);
  }
}
