package clinic.stimshelf.calc.rates;

import static clinic.stimshelf.calc.Checks.asPrinted;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Checks;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ProportionTest {

  static Stream<Checks.Row> wilson() {
    return Checks.rows("09_wilson.csv").stream();
  }

  /** Newcombe 1998, Statistics in Medicine 17:857-872, Table I method 3, and computed rows. */
  @ParameterizedTest
  @MethodSource("wilson")
  void wilsonsInterval(Checks.Row row) {
    Proportion p = Proportion.of(row.whole("x"), row.whole("n"), row.number("conf"));
    assertThat(p.rate()).isCloseTo(row.number("p"), asPrinted(row.text("p")));
    assertThat(p.low()).isCloseTo(row.number("wilson_lower"), asPrinted(row.text("wilson_lower")));
    assertThat(p.high()).isCloseTo(row.number("wilson_upper"), asPrinted(row.text("wilson_upper")));
    if (row.has("printed_lower")) {
      assertThat(p.low())
          .isCloseTo(row.number("printed_lower"), asPrinted(row.text("printed_lower")));
      assertThat(p.high())
          .isCloseTo(row.number("printed_upper"), asPrinted(row.text("printed_upper")));
    }
  }

  @Test
  void theEndsAreExact() {
    assertThat(Proportion.of(0, 7).low()).isZero();
    assertThat(Proportion.of(7, 7).high()).isEqualTo(1);
    assertThat(Proportion.of(0, 1_000_000_000, 1e-300).high()).isGreaterThanOrEqualTo(0);
    assertThat(Proportion.of(1, 1, Math.nextDown(1.0)).low()).isPositive();
  }

  @Test
  void refusesWhatIsNoProportion() {
    assertThatThrownBy(() -> Proportion.of(1, 0)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> Proportion.of(3, 2)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> Proportion.of(-1, 2)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> Proportion.of(1, 2, 1)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> Proportion.of(1, 2, Double.NaN)).isInstanceOf(BadInput.class);
  }

  @Property(tries = 500)
  void holdsTheRateAndMirrors(
      @ForAll @IntRange(min = 1, max = 1_000_000_000) int of,
      @ForAll @IntRange(max = 1000) int part) {
    long done = (long) of * part / 1000;
    Proportion p = Proportion.of(done, of);
    Proportion mirrored = Proportion.of(of - done, of);
    assertThat(p.low()).isBetween(0.0, p.rate());
    assertThat(p.high()).isBetween(p.rate(), 1.0);
    assertThat(mirrored.low()).isCloseTo(1 - p.high(), within(1e-15));
  }
}
