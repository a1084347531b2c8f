package clinic.stimshelf.shelf;

import static clinic.stimshelf.shelf.UnitState.IN_TREATMENT;
import static clinic.stimshelf.shelf.UnitState.MISSING;
import static clinic.stimshelf.shelf.UnitState.ON_LOAN;
import static clinic.stimshelf.shelf.UnitState.OUT_OF_SERVICE;
import static clinic.stimshelf.shelf.UnitState.READY;
import static clinic.stimshelf.shelf.UnitState.RESERVED;
import static clinic.stimshelf.shelf.UnitState.RETIRED;
import static clinic.stimshelf.shelf.UnitState.TO_INSPECT;
import static clinic.stimshelf.shelf.UnitState.TO_WIPE;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.web.Refusal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Which move is allowed from which state: the states of a unit as the design draws them. */
class UnitStatesTest {
  private static final Instant NOW = Instant.parse("2026-03-04T15:00:00Z");
  private static final LocalDate TODAY = LocalDate.of(2026, 3, 4);

  private record Move(String name, Consumer<Unit> make, Set<UnitState> from, UnitState to) {}

  private static final List<Move> MOVES =
      List.of(
          new Move(
              "reserve", u -> u.reserve(UseKind.LOAN, 1L, TODAY, NOW), EnumSet.of(READY), RESERVED),
          new Move("release", u -> u.release(NOW), EnumSet.of(RESERVED), READY),
          new Move(
              "treat",
              u -> u.begin(UseKind.TREATMENT, NOW),
              EnumSet.of(READY, RESERVED),
              IN_TREATMENT),
          new Move("lend", u -> u.begin(UseKind.LOAN, NOW), EnumSet.of(READY, RESERVED), ON_LOAN),
          new Move("wipe", u -> u.wiped(NOW, NOW), EnumSet.of(TO_WIPE), READY),
          new Move("pass", u -> u.inspected(true, null, NOW), EnumSet.of(TO_INSPECT), READY),
          new Move(
              "fail", u -> u.inspected(false, "bent", NOW), EnumSet.of(TO_INSPECT), OUT_OF_SERVICE),
          new Move(
              "out of service",
              u -> u.outOfService("odd", false, NOW),
              EnumSet.complementOf(EnumSet.of(OUT_OF_SERVICE)),
              OUT_OF_SERVICE),
          new Move(
              "to inspection", u -> u.toInspection(NOW), EnumSet.of(OUT_OF_SERVICE), TO_INSPECT),
          new Move("missing", u -> u.missing("no answer", NOW), EnumSet.of(ON_LOAN), MISSING),
          new Move("found", u -> u.found(NOW), EnumSet.of(MISSING), TO_WIPE),
          new Move(
              "retire",
              u -> u.retire("worn", TODAY, NOW),
              EnumSet.complementOf(EnumSet.of(ON_LOAN, IN_TREATMENT, RETIRED)),
              RETIRED));

  @TestFactory
  List<DynamicTest> everyMoveFromEveryState() {
    List<DynamicTest> tests = new ArrayList<>();
    for (Move move : MOVES) {
      for (UnitState state : UnitState.values()) {
        boolean recorded =
            move.name().equals("wipe") && (state == TO_INSPECT || state == OUT_OF_SERVICE);
        if (recorded) {
          continue; // a wipe there is written down and moves nothing: tested below
        }
        tests.add(
            DynamicTest.dynamicTest(
                move.name() + " from " + state.words(),
                () -> {
                  Unit unit = unit(state);
                  if (move.from().contains(state)) {
                    move.make().accept(unit);
                    assertThat(unit.state).isEqualTo(move.to());
                  } else {
                    assertThatThrownBy(() -> move.make().accept(unit))
                        .isInstanceOf(Refusal.class)
                        .hasMessageContaining("Unit T-1 is " + state.words());
                    assertThat(unit.state).isEqualTo(state);
                  }
                }));
      }
    }
    return tests;
  }

  @Test
  void aTreatedUnitIsReadyOnceItsWipeCounts() {
    Unit unit = unit(IN_TREATMENT);
    unit.end(UseKind.TREATMENT, TO_WIPE, NOW);
    assertThat(unit.state).isEqualTo(TO_WIPE);
    Instant counts = NOW.plus(Duration.ofMinutes(4));
    unit.wiped(NOW, counts);
    assertThat(unit.stateAt(counts.minusSeconds(1))).isEqualTo(TO_WIPE);
    assertThat(unit.stateAt(counts)).isEqualTo(READY);
  }

  @Test
  void aUnitFromAHomeIsInspectedAfterItsWipe() {
    Unit unit = unit(READY);
    unit.begin(UseKind.LOAN, NOW);
    unit.end(UseKind.LOAN, TO_WIPE, NOW);
    unit.wiped(NOW, NOW.plus(Duration.ofMinutes(2)));
    assertThat(unit.stateAt(NOW.plus(Duration.ofMinutes(2)))).isEqualTo(TO_INSPECT);
  }

  @Test
  void aUnitTakenOutOfServiceUnwipedIsWipedAfterItsInspection() {
    Unit unit = unit(IN_TREATMENT);
    unit.end(UseKind.TREATMENT, OUT_OF_SERVICE, NOW);
    unit.toInspection(NOW);
    unit.inspected(true, null, NOW);
    assertThat(unit.state).isEqualTo(TO_WIPE);
  }

  @Test
  void aWipeWhileOutOfServiceCountsWithoutMovingTheUnit() {
    Unit unit = unit(OUT_OF_SERVICE);
    unit.needsWipe = true;
    unit.wiped(NOW, NOW.plus(Duration.ofMinutes(2)));
    assertThat(unit.state).isEqualTo(OUT_OF_SERVICE);
    Instant later = NOW.plus(Duration.ofHours(1));
    unit.settle(later);
    unit.toInspection(later);
    unit.inspected(true, null, later);
    assertThat(unit.state).isEqualTo(READY);
  }

  @Test
  void aUnitTakenOutOfServiceAtAHomeStaysSoWhenItComesBack() {
    Unit unit = unit(ON_LOAN);
    unit.outOfService("recalled", false, NOW);
    unit.end(UseKind.LOAN, TO_WIPE, NOW);
    assertThat(unit.state).isEqualTo(OUT_OF_SERVICE);
    assertThat(unit.needsWipe).isTrue();
    assertThat(unit.needsInspection).isTrue();
  }

  @Test
  void anEventBeforeTheLastMoveIsRefused() {
    Unit unit = unit(READY);
    unit.stateSince = NOW;
    assertThatThrownBy(() -> unit.begin(UseKind.LOAN, NOW.minus(Duration.ofHours(1))))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("only since a later time");
  }

  @Test
  void aRefusalSaysWhatToDo() {
    assertThatThrownBy(() -> unit(ON_LOAN).reserve(UseKind.LOAN, 1L, TODAY, NOW))
        .hasMessageContaining("Check it in first");
    assertThatThrownBy(() -> unit(TO_INSPECT).begin(UseKind.LOAN, NOW))
        .hasMessageContaining("Inspect it first");
  }

  static Unit unit(UnitState state) {
    Unit unit = new Unit();
    unit.id = 1L;
    unit.tag = "T-1";
    unit.kind = new UnitKind();
    unit.kind.code = "two";
    unit.kind.chargeDays = 5;
    unit.purpose = Purpose.BOTH;
    unit.locationId = 1L;
    unit.state = state;
    unit.stateSince = NOW.minus(Duration.ofDays(1));
    unit.nextTestOn = TODAY.plusMonths(3);
    unit.needsWipe = EnumSet.of(IN_TREATMENT, ON_LOAN, TO_WIPE).contains(state);
    return unit;
  }
}
