package clinic.stimshelf.calc.wear;

import static clinic.stimshelf.calc.Checks.asPrinted;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Checks;
import clinic.stimshelf.calc.Checks.Row;
import clinic.stimshelf.calc.wear.ProductLimit.Point;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Freireich et al. 1963, Blood 21:699-716: weeks of remission under 6-MP and placebo. */
class ProductLimitTest {

  private static final ProductLimit SIX_MP = ProductLimit.of(arm("6MP"));
  private static final ProductLimit PLACEBO = ProductLimit.of(arm("placebo"));

  static Stream<Row> steps() {
    return Stream.concat(
        Checks.rows("04_km_6mp.csv").stream(), Checks.rows("04_km_6mp_placebo.csv").stream());
  }

  static Stream<Row> conditional() {
    return Checks.rows("04_km_conditional.csv").stream();
  }

  static Stream<Row> summaries() {
    return Checks.rows("04_km_summary.csv").stream();
  }

  static Stream<Row> meanFurther() {
    return Checks.rows("08_mean_residual_life.csv").stream()
        .filter(row -> row.text("distribution").equals("empirical sample"));
  }

  @ParameterizedTest
  @MethodSource("steps")
  void stepsWithGreenwoodsError(Row row) {
    ProductLimit curve = row.text("dataset").startsWith("6-MP") ? SIX_MP : PLACEBO;
    double time = row.number("time");
    assertThat(curve.surviving(time)).isCloseTo(row.number("surv"), asPrinted(row.text("surv")));
    List<Point> here = curve.points().stream().filter(p -> p.time() == time).toList();
    assertThat(here).hasSize(row.whole("n_event") > 0 ? 1 : 0);
    for (Point point : here) {
      assertThat(point.atRisk()).isEqualTo(row.whole("n_risk"));
      assertThat(point.ended()).isEqualTo(row.whole("n_event"));
      if (point.surviving() == 0) {
        assertThat(point.standardError()).isNull();
      } else {
        assertThat(point.standardError())
            .isCloseTo(row.number("greenwood_se"), asPrinted(row.text("greenwood_se")));
      }
    }
  }

  @ParameterizedTest
  @MethodSource("conditional")
  void conditionalChances(Row row) {
    String column = "prob_event_within_h_given_survived_t0";
    assertThat(SIX_MP.endsWithin(row.number("t0"), row.number("h")).getAsDouble())
        .isCloseTo(row.number(column), asPrinted(row.text(column)));
  }

  @ParameterizedTest
  @MethodSource("summaries")
  void mediansQuartilesAndRestrictedMeans(Row row) {
    ProductLimit curve = row.text("dataset").equals("6-MP") ? SIX_MP : PLACEBO;
    assertThat(curve.lives()).isEqualTo(row.whole("n"));
    assertThat(curve.median()).hasValue(row.number("median"));
    assertThat(curve.quantile(0.25)).hasValue(row.number("q25"));
    if (row.text("q75").equals("NA")) {
      assertThat(curve.quantile(0.75)).isEmpty();
    } else {
      assertThat(curve.quantile(0.75)).hasValue(row.number("q75"));
    }
    assertThat(curve.meanFurther(0, row.number("rmean_to")).getAsDouble())
        .isCloseTo(row.number("rmean"), asPrinted(row.text("rmean")));
  }

  @ParameterizedTest
  @MethodSource("meanFurther")
  void meanFurtherLifeOfASample(Row row) {
    List<Life> lives = Stream.of(2, 3, 3, 5, 8, 13).map(Life::ended).toList();
    assertThat(ProductLimit.of(lives).meanFurther(row.number("t"), 13).getAsDouble())
        .isCloseTo(row.number("mrl"), asPrinted(row.text("mrl")));
  }

  @Test
  void atEqualTimesEndsComeBeforeCensorings() {
    ProductLimit curve = ProductLimit.of(List.of(Life.goingOn(5), Life.ended(5)));
    assertThat(curve.points()).containsExactly(new Point(5, 2, 1, 0.5, Math.sqrt(0.125)));
    assertThat(curve.median()).hasValue(5);
  }

  @Test
  void withoutAnEndThereIsNoStep() {
    ProductLimit curve = ProductLimit.of(List.of(Life.goingOn(5), Life.goingOn(9)));
    assertThat(curve.points()).isEmpty();
    assertThat(curve.median()).isEmpty();
    assertThat(curve.surviving(100)).isEqualTo(1);
    assertThat(ProductLimit.of(List.of()).lives()).isZero();
  }

  @Test
  void oneObservationAndTiesAreExact() {
    assertThat(ProductLimit.of(List.of(Life.ended(3))).points())
        .containsExactly(new Point(3, 1, 1, 0, null));
    ProductLimit tied = ProductLimit.of(List.of(new Life(4, true, 1_000_000), Life.ended(4)));
    assertThat(tied.points()).containsExactly(new Point(4, 1_000_001, 1_000_001, 0, null));
  }

  @Test
  void beyondAllPastLivesNothingIsKnown() {
    assertThat(PLACEBO.endsWithin(23, 5)).isEmpty();
    assertThat(PLACEBO.endsWithin(22, 1)).hasValue(1);
    assertThat(PLACEBO.meanFurther(24, 30)).isEmpty();
  }

  @Test
  void aMedianReachedUpToRoundingCounts() {
    // 0.9 · 8/9 · 7/8 · 6/7 · 5/6 = 1/2, but not in doubles.
    List<Life> lives = new ArrayList<>();
    for (int t = 1; t <= 10; t++) {
      lives.add(Life.ended(t));
    }
    assertThat(ProductLimit.of(lives).median()).hasValue(5);
  }

  @Test
  void refusesImpossibleLives() {
    assertThatThrownBy(() -> Life.ended(-1)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> Life.ended(Double.NaN)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> new Life(1, true, 0)).isInstanceOf(BadInput.class);
  }

  @Property(tries = 200)
  void orderAndCountsDoNotMatter(
      @ForAll @Size(min = 1, max = 30) List<@IntRange(max = 12) Integer> times,
      @ForAll @IntRange(max = 1 << 20) int censoring) {
    List<Life> single = new ArrayList<>();
    List<Life> counted = new ArrayList<>();
    for (int i = 0; i < times.size(); i++) {
      boolean ended = (censoring >> i % 20 & 1) == 0;
      single.add(new Life(times.get(i), ended, 1));
      single.add(new Life(times.get(i), ended, 1));
      counted.add(new Life(times.get(i), ended, 2));
    }
    Collections.shuffle(single, new Random(censoring));
    assertThat(ProductLimit.of(single)).isEqualTo(ProductLimit.of(counted));
  }

  /** Without censoring the curve is the plain share that lasts longer. */
  @Property(tries = 100)
  void withoutCensoringItIsTheShare(
      @ForAll @Size(min = 1, max = 40) List<@IntRange(max = 15) Integer> times,
      @ForAll @IntRange(max = 16) int t) {
    ProductLimit curve = ProductLimit.of(times.stream().map(Life::ended).toList());
    double share = times.stream().filter(time -> time > t).count() / (double) times.size();
    assertThat(curve.surviving(t)).isCloseTo(share, within(1e-14));
  }

  private static List<Life> arm(String arm) {
    return Checks.rows("04_km_6mp_data.csv").stream()
        .filter(row -> row.text("arm").equals(arm))
        .map(row -> new Life(row.number("weeks"), row.whole("event") == 1, 1))
        .toList();
  }
}
