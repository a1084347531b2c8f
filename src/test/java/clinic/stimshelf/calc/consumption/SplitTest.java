package clinic.stimshelf.calc.consumption;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;

/** The steps from plan to what was used, worked by hand and for any numbers. */
class SplitTest {

  /**
   * Worked by hand: 84 sessions planned, 60 done, 4 pads a session, 4 in a pack, 20 uses planned; 5
   * packs given, half a pack lost, 7.50 by the list, 8.00 paid. Plan 84/20 = 4.2 packs; sessions
   * (60 − 84)/20 = −1.2; wear 5 − 0.5 − 60/20 = 1.5; waste 0.5; price 5 · 0.50 = 2.50.
   */
  @Test
  void aProgramIsSplitAsByHand() {
    Split split =
        Split.ofPlan(
            number("4.2"),
            new Use(number("5"), number("0.5"), number("3"), number("40.00")),
            number("7.50"));
    Statement shown = Statement.of(split);
    assertThat(shown.packs().before()).isEqualByComparingTo("4.20");
    assertThat(shown.packs().now()).isEqualByComparingTo("5");
    assertThat(shown.packs().parts())
        .isEqualTo(
            Map.of(
                Cause.SESSIONS,
                number("-1.20"),
                Cause.WEAR,
                number("1.50"),
                Cause.WASTE,
                number("0.50")));
    assertThat(shown.cost().before()).isEqualByComparingTo("31.50");
    assertThat(shown.cost().now()).isEqualByComparingTo("40.00");
    assertThat(shown.cost().parts())
        .isEqualTo(
            Map.of(
                Cause.SESSIONS, number("-9.00"),
                Cause.WEAR, number("11.25"),
                Cause.WASTE, number("3.75"),
                Cause.PRICE, number("2.50")));
  }

  /**
   * Against an earlier period, worked by hand: 10 packs for sessions worth 8 then, so 1.25 a pack
   * of worth; now 12 packs, 1 of them wasted, for a worth of 6: sessions 1.25·(6 − 8) = −2.5, wear
   * (12 − 1 − 7.5) − (10 − 0 − 10) = 3.5, waste 1; 12 − 10 = 2.
   */
  @Test
  void twoPeriodsAreComparedAtTheUsesOfTheEarlierOne() {
    Use before = new Use(number("10"), number("0"), number("8"), number("75.00"));
    Use now = new Use(number("12"), number("1"), number("6"), number("96.00"));
    Split split = Split.of(before, now, Split.rate(before), Split.price(before, number("1")));
    Statement shown = Statement.of(split);
    assertThat(shown.packs().parts())
        .isEqualTo(
            Map.of(
                Cause.SESSIONS,
                number("-2.50"),
                Cause.WEAR,
                number("3.50"),
                Cause.WASTE,
                number("1.00")));
    assertThat(shown.cost().parts())
        .isEqualTo(
            Map.of(
                Cause.SESSIONS, number("-18.75"),
                Cause.WEAR, number("26.25"),
                Cause.WASTE, number("7.50"),
                Cause.PRICE, number("6.00")));
  }

  @Test
  void thirdsOfACentGoToTheLargestRemainders() {
    assertThat(
            Apportionment.of(
                List.of(number("0.333333"), number("0.333333"), number("0.333334")),
                number("1.00")))
        .containsExactly(number("0.33"), number("0.33"), number("0.34"));
    assertThat(
            Apportionment.of(List.of(number("-0.005"), number("1.005"), number("0")), number("1")))
        .containsExactly(number("-0.01"), number("1.01"), number("0.00"));
  }

  @Property
  void thePartsAddUpToTheCentForAnyInput(@ForAll("splits") Split split) {
    assertAddsUp(Statement.of(split));
  }

  @Property(tries = 300)
  void rowsAddUpAcrossAndDownForAnyInput(@ForAll("tables") List<Split> splits) {
    Statement total = Statement.of(splits.stream().reduce(Split.none(), Split::plus));
    List<Statement> rows = Statement.rows(splits);
    rows.forEach(SplitTest::assertAddsUp);
    assertThat(sum(rows.stream().map(row -> row.cost().before()).toList()))
        .isEqualByComparingTo(total.cost().before());
    assertThat(sum(rows.stream().map(row -> row.cost().now()).toList()))
        .isEqualByComparingTo(total.cost().now());
    for (Cause cause : Cause.values()) {
      assertThat(sum(rows.stream().map(row -> row.cost().part(cause)).toList()))
          .isEqualByComparingTo(total.cost().part(cause));
      assertThat(sum(rows.stream().map(row -> row.packs().part(cause)).toList()))
          .isEqualByComparingTo(total.packs().part(cause));
    }
  }

  @Property
  void noPartIsMovedByMoreThanAFewCents(@ForAll("splits") Split split) {
    Statement shown = Statement.of(split);
    for (Cause cause : Cause.values()) {
      assertThat(shown.cost().part(cause).subtract(split.costs().get(cause)).abs())
          .isLessThanOrEqualTo(number("0.02"));
    }
  }

  @Property
  void theStepsAddUpExactlyBeforeAnythingIsRounded(@ForAll("splits") Split split) {
    assertThat(sum(List.copyOf(split.costs().values())))
        .isEqualByComparingTo(split.now().cost().subtract(split.before().cost()));
    assertThat(sum(List.copyOf(split.packs().values())))
        .isEqualByComparingTo(split.now().packs().subtract(split.before().packs()));
  }

  private static void assertAddsUp(Statement shown) {
    for (Statement.Column column : List.of(shown.packs(), shown.cost())) {
      assertThat(sum(List.copyOf(column.parts().values())))
          .isEqualByComparingTo(column.difference());
      column.parts().values().forEach(part -> assertThat(part.scale()).isLessThanOrEqualTo(2));
    }
  }

  @Provide
  Arbitrary<List<Split>> tables() {
    return splits().list().ofMinSize(0).ofMaxSize(12);
  }

  @Provide
  Arbitrary<Split> splits() {
    return Arbitraries.oneOf(
        Combinators.combine(thirds(), uses(), prices()).as(Split::ofPlan),
        Combinators.combine(uses(), uses(), prices())
            .as(
                (before, now, price) ->
                    Split.of(before, now, Split.rate(before), Split.price(before, price))));
  }

  private static Arbitrary<Use> uses() {
    return Combinators.combine(
            Arbitraries.integers().between(-20, 5_000),
            Arbitraries.integers().between(0, 400),
            thirds(),
            prices())
        .as(
            (packs, wasted, worth, price) ->
                new Use(
                    BigDecimal.valueOf(packs),
                    BigDecimal.valueOf(wasted).divide(number("8"), 20, RoundingMode.HALF_EVEN),
                    worth,
                    BigDecimal.valueOf(packs).multiply(price)));
  }

  /** Sessions times pads over pads a pack times uses: what divides badly. */
  private static Arbitrary<BigDecimal> thirds() {
    return Combinators.combine(
            Arbitraries.integers().between(0, 100_000), Arbitraries.integers().between(1, 997))
        .as(
            (over, under) ->
                BigDecimal.valueOf(over)
                    .divide(BigDecimal.valueOf(under), Use.PLACES, RoundingMode.HALF_EVEN));
  }

  private static Arbitrary<BigDecimal> prices() {
    return Arbitraries.bigDecimals()
        .between(BigDecimal.ZERO, BigDecimal.valueOf(99_999))
        .ofScale(4);
  }

  private static BigDecimal sum(List<BigDecimal> amounts) {
    return amounts.stream().reduce(BigDecimal.ZERO, BigDecimal::add);
  }

  private static BigDecimal number(String text) {
    return new BigDecimal(text);
  }
}
