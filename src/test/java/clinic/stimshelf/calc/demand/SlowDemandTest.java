package clinic.stimshelf.calc.demand;

import static clinic.stimshelf.calc.Checks.asPrinted;
import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Checks;
import clinic.stimshelf.calc.Checks.Row;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class SlowDemandTest {

  static Stream<Row> classified() {
    return Checks.rows("03_demand_classification.csv").stream();
  }

  static Stream<Row> cutoffs() {
    return Checks.rows("03_demand_classification_cutoffs.csv").stream();
  }

  /** Hyndman and Athanasopoulos, Forecasting: Principles and Practice, 2nd ed., section 12.2. */
  @Test
  void crostonFamilyOnAPublishedSeries() {
    checkFamily(Checks.rows("03_croston_fpp2_productC_alpha0.1.csv"), 0.1, 0.1);
    double[] series = series(Checks.rows("03_croston_fpp2_productC_alpha0.1.csv"));
    // 2.750 / 2.793 = .985 as printed in the book (recalled).
    assertThat(SlowDemand.croston(0.1, 0.1, series).forecast().getAsDouble())
        .isCloseTo(0.985, within(0.0005));
  }

  @ParameterizedTest
  @ValueSource(strings = {"0.05", "0.1", "0.2", "0.3"})
  void crostonFamilyOnASyntheticSeries(String alpha) {
    List<Row> rows =
        Checks.rows("03_croston_synthetic_series.csv").stream()
            .filter(row -> row.text("alpha").equals(alpha))
            .toList();
    assertThat(rows).hasSize(24);
    checkFamily(rows, Double.parseDouble(alpha), rows.get(0).number("beta_tsb"));
  }

  @Test
  void separateConstants() {
    List<Row> rows = Checks.rows("03_croston_sba_alpha0.15_beta0.1.csv");
    check(rows, "croston_forecast_next", SlowDemand.croston(0.15, 0.1, series(rows)));
    check(rows, "sba_forecast_next", SlowDemand.sba(0.15, 0.1, series(rows)));
  }

  @ParameterizedTest
  @MethodSource("classified")
  void classifiesBySyntetosBoylanCroston(Row row) {
    Pattern pattern = Pattern.of(row.numbers("values"));
    assertThat(pattern.meanInterval())
        .isCloseTo(row.number("adi_n_over_k"), asPrinted(row.text("adi_n_over_k")));
    assertThat(pattern.squaredVariation())
        .isCloseTo(row.number("cv2_sample_sd"), asPrinted(row.text("cv2_sample_sd")));
    assertThat(kind(pattern)).isEqualTo(row.text("class_adi_n_over_k_cv2_sample"));
  }

  @ParameterizedTest
  @MethodSource("cutoffs")
  void cutOffsBelongToTheCalmerKind(Row row) {
    assertThat(kind(new Pattern(row.number("adi"), row.number("cv2"))))
        .isEqualTo(row.text("class"));
  }

  @Test
  void withoutDemandThereIsNoForecast() {
    assertThat(SlowDemand.croston(0.1, 0.1, 0, 0, 0).forecast()).isEmpty();
    assertThat(SlowDemand.tsb(0.1, 0.1, 0, 0).fitted()).containsExactly(null, null);
    assertThat(SlowDemand.ses(0.1, 0, 0).forecast()).hasValue(0);
    assertThat(Pattern.of(0, 0)).isEqualTo(new Pattern(null, null));
    assertThat(Pattern.of(0, 4, 0, 0)).isEqualTo(new Pattern(4.0, null));
    assertThat(Pattern.of(0, 4).kind()).isEmpty();
  }

  @Test
  void startsFromTheFirstDemandAndItsPosition() {
    assertThat(SlowDemand.tsb(0.5, 0.5, 0, 6, 0).fitted()).containsExactly(null, null, 3.0);
    assertThat(SlowDemand.tsb(0.5, 0.5, 0, 6, 0).forecast()).hasValue(1.5);
    assertThat(SlowDemand.croston(0.5, 0.5, 0, 6, 0, 4).forecast()).hasValue(2.5);
    assertThat(SlowDemand.sba(0.5, 0.5, 0, 6, 0, 4).forecast()).hasValue(2.5 * 0.75);
    assertThat(SlowDemand.ses(0.5, 4, 0, 6).fitted()).containsExactly(null, 4.0, 2.0);
  }

  @Test
  void refusesNegativeDemandAndConstantsOutsideTheUnit() {
    assertThatThrownBy(() -> SlowDemand.ses(0.1, 1, -1)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> SlowDemand.ses(0.1)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> SlowDemand.ses(1.1, 1)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> SlowDemand.tsb(0.1, Double.NaN, 1)).isInstanceOf(BadInput.class);
  }

  private static void checkFamily(List<Row> rows, double alpha, double betaTsb) {
    double[] series = series(rows);
    check(rows, "croston_forecast_next", SlowDemand.croston(alpha, alpha, series));
    check(rows, "sba_forecast_next", SlowDemand.sba(alpha, alpha, series));
    // The file starts TSB from the mean size and the share of demand periods of the whole series.
    double share = Arrays.stream(series).filter(y -> y > 0).count() / (double) series.length;
    double size = Arrays.stream(series).sum() / (share * series.length);
    check(rows, "tsb_forecast_next", SlowDemand.tsbFrom(size, share, alpha, betaTsb, series));
  }

  private static void check(List<Row> rows, String column, SlowDemand ours) {
    for (int t = 0; t < rows.size(); t++) {
      Double next =
          t + 1 < rows.size() ? ours.fitted().get(t + 1) : (Double) ours.forecast().orElseThrow();
      if (rows.get(t).has(column)) {
        // 5e-13: the file's figures are cut to fourteen digits.
        assertThat(requireNonNull(next)).isCloseTo(rows.get(t).number(column), within(5e-13));
      } else {
        assertThat(next).isNull();
      }
    }
  }

  private static double[] series(List<Row> rows) {
    return rows.stream().mapToDouble(row -> row.number("demand")).toArray();
  }

  private static String kind(Pattern pattern) {
    return pattern.kind().orElseThrow().name().toLowerCase(Locale.ROOT);
  }
}
