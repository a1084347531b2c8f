package clinic.stimshelf.calc.wear;

import static clinic.stimshelf.calc.Checks.asPrinted;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Checks;
import clinic.stimshelf.calc.Checks.Row;
import clinic.stimshelf.calc.wear.LotComparison.Lot;
import clinic.stimshelf.calc.wear.LotComparison.Result;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class LotComparisonTest {

  static Stream<Row> rateTests() {
    return Checks.rows("06_poisson_rate_tests.csv").stream()
        .filter(row -> row.text("quantity").equals("p_greater"));
  }

  /** The one-sided exact test of two rates: given the total, the first count is binomial. */
  @ParameterizedTest
  @MethodSource("rateTests")
  void upperTailOfTheConditionalBinomial(Row row) {
    long first = row.whole("x1");
    double share = row.number("t1") / (row.number("t1") + row.number("t2"));
    assertThat(LotComparison.upperTail(first, first + row.whole("x2"), share))
        .isCloseTo(row.number("computed"), asPrinted(row.text("computed")));
  }

  @Test
  void findsTheBadLot() {
    List<Row> rows = Checks.rows("06_bad_lot_holm.csv");
    List<Lot> lots =
        rows.stream()
            .map(row -> new Lot(row.text("lot"), row.whole("failures"), row.whole("uses")))
            .toList();
    LotComparison comparison = LotComparison.of(lots, 0.05);
    for (int i = 0; i < rows.size(); i++) {
      Row row = rows.get(i);
      Result result = comparison.lots().get(i);
      assertThat(result.pValue())
          .isCloseTo(row.number("p_greater_vs_rest"), asPrinted(row.text("p_greater_vs_rest")));
      assertThat(result.adjustedPValue())
          .isCloseTo(row.number("holm"), asPrinted(row.text("holm")));
      assertThat(result.suspect()).isEqualTo(row.text("reject_holm_0.05").equals("TRUE"));
      assertThat(result.ratePerThousand())
          .isCloseTo(1000 * row.number("failures") / row.number("uses"), within(1e-12));
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"HO1", "HO2", "HO3"})
  void holmsAdjustment(String id) {
    List<Row> rows =
        Checks.rows("06_holm.csv").stream().filter(row -> row.text("id").equals(id)).toList();
    assertThat(rows).isNotEmpty();
    double[] adjusted = Holm.adjust(rows.stream().mapToDouble(row -> row.number("p")).toArray());
    for (int i = 0; i < rows.size(); i++) {
      assertThat(adjusted[i])
          .isCloseTo(rows.get(i).number("holm"), asPrinted(rows.get(i).text("holm")));
    }
  }

  @Test
  void oneLotAloneOrWithoutFailuresIsNeverSuspect() {
    assertThat(LotComparison.of(List.of(new Lot("A", 9, 10)), 0.5).lots().get(0).pValue())
        .isEqualTo(1);
    LotComparison none = LotComparison.of(List.of(new Lot("A", 0, 10), new Lot("B", 0, 5)), 0.05);
    assertThat(none.lots()).allMatch(lot -> lot.pValue() == 1 && !lot.suspect());
    assertThat(LotComparison.of(List.of(), 0.05).lots()).isEmpty();
  }

  @Test
  void aTailFarBelowRoundingKeepsItsDigits() {
    // All 100 failures in a lot with a thousandth of the uses: P = 0.001^100.
    LotComparison comparison =
        LotComparison.of(List.of(new Lot("A", 100, 1_000), new Lot("B", 0, 999_000)), 0.05);
    assertThat(comparison.lots().get(0).pValue()).isCloseTo(1e-300, within(1e-311));
    assertThat(comparison.lots().get(0).suspect()).isTrue();
    double tail = BinomialDistribution.of(500, 0.01).survivalProbability(99);
    assertThat(LotComparison.upperTail(100, 500, 0.01)).isCloseTo(tail, within(1e-12 * tail));
  }

  @Test
  void manyHugeLotsAreCompared() {
    List<Lot> lots = new ArrayList<>();
    for (int i = 0; i < 10_000; i++) {
      lots.add(new Lot("lot " + i, 500_000_000 + i * 3L, 1_000_000_000));
    }
    LotComparison comparison = LotComparison.of(lots, 0.05);
    assertThat(comparison.lots()).allMatch(lot -> lot.pValue() >= 0 && lot.pValue() <= 1);
  }

  @Test
  void refusesMoreFailuresThanUses() {
    assertThatThrownBy(() -> new Lot("A", 3, 2)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> new Lot("A", 0, 0)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> LotComparison.of(List.of(), Double.NaN)).isInstanceOf(BadInput.class);
  }
}
