package clinic.stimshelf.calc.outcome;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.BadInput;
import org.junit.jupiter.api.Test;

/** Formula: Gokeler 2017, Knee Surg Sports Traumatol Arthrosc 25:192. */
class SymmetryTest {

  /** Our own arithmetic with that formula. */
  @Test
  void aWorkedExampleIsMetExactly() {
    Symmetry knee = Symmetry.of(150, 200, false);
    assertThat(knee.percent()).isEqualTo(75.0);
    assertThat(knee.reached(90, true)).isFalse();
  }

  /** A published preoperative ratio: 82 % of 205 Nm; 168 Nm is our arithmetic. */
  @Test
  void theInvolvedSideStandsOnTop() {
    assertThat(Symmetry.of(168, 205, false).percent()).isCloseTo(82, within(0.05));
  }

  /** At least 90 %: Nawasreh 2017, Am J Sports Med. Above 90 %: Gokeler 2017. */
  @Test
  void whetherExactlyTheThresholdCountsIsTheClinicsChoice() {
    Symmetry exactly = Symmetry.of(90, 100, false);
    assertThat(exactly.reached(90, true)).isTrue();
    assertThat(exactly.reached(90, false)).isFalse();
  }

  /** From memory: a timed hop is turned over, since less is better. */
  @Test
  void aSlowerInvolvedLegIsBehindInATimedHop() {
    assertThat(Symmetry.of(2.5, 2.0, true).percent()).isCloseTo(80, within(1e-12));
  }

  @Test
  void whatCannotBeIsRefused() {
    assertThat(Symmetry.of(0, 5, false).percent()).isZero();
    assertThatThrownBy(() -> Symmetry.of(5, 0, false)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> Symmetry.of(0, 5, true)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> Symmetry.of(Double.NaN, 5, false)).isInstanceOf(BadInput.class);
  }

  /** Krahn 2025, Int J Sports Phys Ther: a mean difference of 2.53 cm; an inch is 2.54 cm. */
  @Test
  void girthIsTheOtherSideLessTheInvolvedOne() {
    assertThat(Girth.of(44.97, 47.5).difference()).isCloseTo(2.53, within(1e-9));
    assertThat(Girth.inches(2.54)).isEqualTo(1.0);
    assertThatThrownBy(() -> Girth.of(0, 40)).isInstanceOf(BadInput.class);
  }
}
