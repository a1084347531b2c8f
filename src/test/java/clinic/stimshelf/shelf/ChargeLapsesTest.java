package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.web.Refusal;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;

/** A charge counts for the days that the kind names. */
class ChargeLapsesTest {
  private static final Instant CHARGED = Instant.parse("2026-03-04T15:00:00Z");

  @Test
  void itLapsesAfterTheKindsDays() {
    Unit unit = UnitStatesTest.unit(UnitState.READY);
    unit.charged(CHARGED);
    assertThat(unit.holdsChargeAt(CHARGED.plus(Duration.ofDays(5)).minusSeconds(1))).isTrue();
    assertThat(unit.holdsChargeAt(CHARGED.plus(Duration.ofDays(5)))).isFalse();
  }

  @Test
  void whatWasNeverChargedIsNotCharged() {
    assertThat(UnitStatesTest.unit(UnitState.READY).holdsChargeAt(CHARGED)).isFalse();
  }

  @Test
  void aKindWithoutChargeIsAlwaysGood() {
    Unit unit = UnitStatesTest.unit(UnitState.READY);
    unit.kind.chargeDays = null;
    assertThat(unit.holdsChargeAt(CHARGED)).isTrue();
    assertThatThrownBy(() -> unit.charged(CHARGED)).isInstanceOf(Refusal.class);
  }

  @Test
  void aLoanUsesItUp() {
    Unit unit = UnitStatesTest.unit(UnitState.READY);
    unit.charged(CHARGED);
    unit.begin(UseKind.LOAN, CHARGED);
    unit.end(UseKind.LOAN, UnitState.TO_WIPE, CHARGED.plus(Duration.ofHours(1)));
    assertThat(unit.holdsChargeAt(CHARGED.plus(Duration.ofHours(1)))).isFalse();
  }

  @Test
  void nobodyChargesAUnitThatIsWithAPerson() {
    assertThatThrownBy(() -> UnitStatesTest.unit(UnitState.IN_TREATMENT).charging(CHARGED))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("in treatment");
  }

  @Test
  void anOlderChargeEnteredLateDoesNotReplaceANewerOne() {
    Unit unit = UnitStatesTest.unit(UnitState.READY);
    unit.stateSince = CHARGED.minus(Duration.ofDays(9));
    unit.charged(CHARGED);
    unit.charged(CHARGED.minus(Duration.ofDays(3)));
    assertThat(unit.chargedAt).isEqualTo(CHARGED);
  }
}
