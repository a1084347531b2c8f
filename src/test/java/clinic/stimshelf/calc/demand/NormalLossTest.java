package clinic.stimshelf.calc.demand;

import static clinic.stimshelf.calc.Checks.asPrinted;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Checks;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class NormalLossTest {

  static Stream<Checks.Row> exact() {
    return Checks.rows("02_normal_loss_G.csv").stream();
  }

  static Stream<Checks.Row> inverses() {
    return Checks.rows("02_normal_loss_inverse.csv").stream();
  }

  static Stream<Checks.Row> printed() {
    return Checks.rows("02_normal_loss_printed.csv").stream();
  }

  static Stream<Checks.Row> levels() {
    return Checks.rows("02_normal_z_for_service.csv").stream();
  }

  @ParameterizedTest
  @MethodSource("exact")
  void agreesWithTheReference(Checks.Row row) {
    assertThat(NormalLoss.value(row.number("k")))
        .isCloseTo(row.number("unit_normal_loss_G"), asPrinted(row.text("unit_normal_loss_G")));
  }

  @ParameterizedTest
  @MethodSource("inverses")
  void inverts(Checks.Row row) {
    assertThat(NormalLoss.inverse(row.number("G_target")))
        .isCloseTo(row.number("k"), asPrinted(row.text("k")));
  }

  @ParameterizedTest
  @MethodSource("printed")
  void agreesWithPrintedTables(Checks.Row row) {
    assertThat(NormalLoss.value(row.number("k")))
        .isCloseTo(row.number("printed_G"), asPrinted(row.text("printed_G")));
  }

  @ParameterizedTest
  @MethodSource("levels")
  void levelsGiveTheirQuantile(Checks.Row row) {
    ReorderPoint point =
        ReorderPoint.normal(
            0, 1, Target.cycle(row.number("service_level_P1")), OptionalDouble.empty());
    // The quantile of a level near 1 moves by its rounding: 1e-12 stands in the README of the
    // checks.
    assertThat(point.reorderPoint()).isCloseTo(row.number("z"), within(1e-11));
  }

  @ParameterizedTest
  @ValueSource(
      doubles = {1e-300, 1e-100, 1e-20, 1e-5, 0.1, 0.3989422804014327, 0.4, 1, 5, 37, 1e6, 1e300})
  void inversesComeBack(double loss) {
    assertThat(NormalLoss.value(NormalLoss.inverse(loss))).isCloseTo(loss, within(1e-11 * loss));
  }

  @Test
  void isContinuousWhereTheMethodChanges() {
    assertThat(NormalLoss.value(Math.nextDown(2.0))).isCloseTo(NormalLoss.value(2), within(1e-16));
  }

  /** Asymptotically G(z) = phi(z)/z^2 (1 - 3/z^2 + 15/z^4 - 105/z^6 + …). */
  @Test
  void keepsItsDigitsFarOut() {
    double z = 30;
    double series = 1 - 3 / 900.0 + 15 / 810_000.0 - 105 / 7.29e8 + 945 / 6.561e11;
    double phi = Math.exp(-450) / Math.sqrt(2 * Math.PI);
    assertThat(NormalLoss.value(z) / (phi / 900 * series)).isCloseTo(1, within(1e-10));
  }

  @Test
  void refusesAnEndlessStock() {
    assertThatThrownBy(() -> NormalLoss.inverse(0)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> NormalLoss.inverse(Double.NaN)).isInstanceOf(BadInput.class);
    assertThat(NormalLoss.inverse(Double.MIN_VALUE)).isBetween(38.0, 38.5);
    ReorderPoint.normal(1, 1, Target.fill(0.5), OptionalDouble.of(1e-300));
    assertThatThrownBy(
            () -> ReorderPoint.normal(1, 1e-200, Target.fill(0.5), OptionalDouble.of(1e200)))
        .isInstanceOf(BadInput.class);
  }
}
