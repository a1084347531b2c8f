package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import jakarta.inject.Singleton;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** From the end of one use to the beginning of the next, with everything that can go wrong. */
@QuarkusTest
class BetweenUsesTest {
  @Inject ShelfScene scene;
  @Inject Shelf shelf;
  @Inject UnitCare care;
  @Inject ShelfKeeping keeping;
  @Inject UnitHistories histories;
  @Inject Trail trail;
  @Inject Dropped dropped;

  private String tag;

  @BeforeEach
  void aReadyUnit() {
    tag = scene.readyUnit(scene.location(), scene.kind(2)).tag();
  }

  @Test
  void aLoanEndsInWipeInspectionAndReady() {
    lend(7L);
    shelf.end(id(), UseKind.LOAN, 7L, scene.now(), UnitState.TO_WIPE);
    assertThat(state()).isEqualTo(UnitState.TO_WIPE);
    care.wiped(tag, null, null, scene.now());
    assertThat(state()).as("the contact time runs").isEqualTo(UnitState.TO_WIPE);
    assertThat(shelf.byTag(tag).readyAt()).isNotNull();
    assertThatThrownBy(() -> scene.pass(tag, scene.now()))
        .hasMessageContaining("wait until the contact time has passed");
    scene.set(tag, unit -> unit.wipeCountsAt = scene.now().at());
    assertThat(state()).isEqualTo(UnitState.TO_INSPECT);
    scene.pass(tag, scene.now());
    assertThat(state()).isEqualTo(UnitState.READY);
    assertThat(shelf.byTag(tag).charged()).as("a home uses the charge up").isFalse();
  }

  @Test
  void aTreatmentEndsInAWipeOnly() {
    shelf.begin(id(), UseKind.TREATMENT, 3L, scene.now().at(), null, scene.now());
    shelf.end(id(), UseKind.TREATMENT, 3L, scene.now(), UnitState.TO_WIPE);
    care.wiped(tag, "blue-tub", "case and leads", scene.now());
    scene.set(tag, unit -> unit.wipeCountsAt = scene.now().at());
    assertThat(state()).isEqualTo(UnitState.READY);
  }

  @Test
  void aProductThatIsNotListedIsRefusedWithThoseThatAre() {
    scene.set(tag, unit -> unit.state = UnitState.TO_WIPE);
    assertThatThrownBy(() -> care.wiped(tag, "tap-water", null, scene.now()))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("gray-tub");
  }

  @Test
  void everyPointOfTheChecklistMustBeAnswered() {
    scene.set(tag, unit -> unit.state = UnitState.TO_INSPECT);
    assertThatThrownBy(
            () -> care.inspected(tag, Map.of("case-whole", true), null, false, scene.now()))
        .isInstanceOfSatisfying(
            Refusal.class,
            refusal ->
                assertThat(refusal.reasons())
                    .hasSize(scene.answers(true).size() - 1)
                    .extracting(Reason::field)
                    .contains("answers.leads-sound"));
  }

  @Test
  void oneNoTakesItOutOfService() {
    scene.set(tag, unit -> unit.state = UnitState.TO_INSPECT);
    Map<String, Boolean> answers = scene.answers(true);
    answers.put("leads-sound", false);
    assertThat(care.inspected(tag, answers, "frayed at the plug", false, scene.now())).isFalse();
    UnitView unit = shelf.byTag(tag);
    assertThat(unit.state()).isEqualTo(UnitState.OUT_OF_SERVICE);
    assertThat(unit.stateReason()).contains("lead wires", "frayed at the plug");
  }

  @Test
  void orKeepsItOnTheBench() {
    scene.set(tag, unit -> unit.state = UnitState.TO_INSPECT);
    care.inspected(tag, scene.answers(false), null, true, scene.now());
    assertThat(state()).isEqualTo(UnitState.TO_INSPECT);
    scene.pass(tag, scene.now());
    assertThat(state()).isEqualTo(UnitState.READY);
  }

  @Test
  void aFaultOnTheShelfLeadsOutOfServiceAndThenAlwaysToInspection() {
    care.trouble(tag, FaultKind.FAULT, "one channel dead", scene.now());
    assertThat(state()).isEqualTo(UnitState.OUT_OF_SERVICE);
    assertThat(shelf.byTag(tag).testDue()).isFalse();
    care.toInspection(tag, scene.now());
    assertThat(state()).isEqualTo(UnitState.TO_INSPECT);
  }

  @Test
  void aFaultDuringATreatmentLeadsToAnInspectionAfterTheWipe() {
    shelf.begin(id(), UseKind.TREATMENT, 3L, scene.now().at(), null, scene.now());
    care.trouble(tag, FaultKind.DROP, "slid off the plinth", scene.now());
    assertThat(state()).isEqualTo(UnitState.IN_TREATMENT);
    shelf.end(id(), UseKind.TREATMENT, 3L, scene.now(), UnitState.TO_WIPE);
    care.wiped(tag, null, null, scene.now());
    scene.set(tag, unit -> unit.wipeCountsAt = scene.now().at());
    assertThat(state()).isEqualTo(UnitState.TO_INSPECT);
    assertThat(shelf.byTag(tag).testDue()).as("a drop ends the safety test").isTrue();
  }

  @Test
  void whatIsMissingFromALoanIsCheckedInAndNotJustFound() {
    lend(7L);
    care.missing(tag, "called three times", scene.now());
    assertThat(shelf.byTag(tag).use()).as("the loan goes on").isNotNull();
    assertThatThrownBy(() -> care.found(tag, scene.now()))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Check the unit in");
    assertThat(state()).isEqualTo(UnitState.MISSING);
  }

  @Test
  void missingIsReturnedThroughItsLoan() {
    lend(7L);
    care.missing(tag, "called three times", scene.now());
    shelf.end(id(), UseKind.LOAN, 7L, scene.now(), UnitState.TO_WIPE);
    assertThat(state()).isEqualTo(UnitState.TO_WIPE);
  }

  @Test
  void aUnitWithAPersonIsNotRetired() {
    lend(7L);
    assertThatThrownBy(() -> care.retire(tag, "worn", scene.now())).isInstanceOf(Refusal.class);
  }

  @Test
  void onlyTheUseThatRunsIsEnded() {
    lend(7L);
    assertThatThrownBy(() -> shelf.end(id(), UseKind.LOAN, 8L, scene.now(), UnitState.TO_WIPE))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("not in the use that is meant");
  }

  @Test
  void aUseEnteredByMistakeIsVoidedAndTheUnitIsReadyAgain() {
    lend(7L);
    shelf.cancelUse(id(), UseKind.LOAN, 7L, scene.now());
    assertThat(state()).isEqualTo(UnitState.READY);
    assertThat(histories.of(tag).own().sessions()).isZero();
  }

  @Test
  void anEndEnteredByMistakeIsVoidedAndTheUseGoesOn() {
    lend(7L);
    shelf.end(id(), UseKind.LOAN, 7L, scene.now(), UnitState.TO_WIPE);
    shelf.resumeUse(id(), UseKind.LOAN, 7L, scene.now());
    assertThat(state()).isEqualTo(UnitState.ON_LOAN);
    assertThat(shelf.byTag(tag).use().subjectId()).isEqualTo(7L);
  }

  @Test
  void aReservationThatIsLostIsTold() {
    shelf.reserve(id(), 55L, scene.now());
    care.outOfService(tag, UnitCare.Cause.OTHER, "label gone", scene.now());
    assertThat(dropped.seen).contains(new ReservationDropped(id(), UseKind.LOAN, 55L));
  }

  @Test
  void anEventBeforeTheLastMoveIsRefused() {
    Happened yesterday = new Happened(scene.in(Duration.ofDays(-1)), "forgotten");
    assertThatThrownBy(() -> care.outOfService(tag, UnitCare.Cause.OTHER, "odd", yesterday))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("only since a later time");
    scene.since(tag, Duration.ofDays(2));
    care.outOfService(tag, UnitCare.Cause.OTHER, "odd", yesterday);
    assertThat(shelf.byTag(tag).stateSince()).isBefore(scene.in(Duration.ofHours(-23)));
  }

  @Test
  void everyMoveLeavesALineInTheTrail() {
    lend(7L);
    shelf.end(id(), UseKind.LOAN, 7L, scene.now(), UnitState.TO_WIPE);
    care.wiped(tag, null, null, scene.now());
    assertThat(trail.of(Subject.of("unit", tag)))
        .extracting(entry -> entry.action())
        .containsExactly("wiped", "came back", "lent", "charged", "inspected", "added");
    assertThat(trail.of(Subject.of("unit", tag)).get(1).before().get("state").asText())
        .isEqualTo("on-loan");
  }

  @Test
  void theHistoryStandsOnOneLineOfTimeNewestFirst() {
    lend(7L);
    shelf.countSessions(UseKind.LOAN, 7L, scene.in(Duration.ofMinutes(1)), 41);
    shelf.countSessions(UseKind.LOAN, 7L, scene.in(Duration.ofMinutes(1)), -1);
    shelf.end(id(), UseKind.LOAN, 7L, scene.now(), UnitState.TO_WIPE);
    care.trouble(tag, FaultKind.FAULT, "display dim", scene.now());
    UnitHistory history = histories.of(tag);
    assertThat(history.lines())
        .extracting(HistoryLine::kind)
        .contains("loan", "fault", "inspection", "charge", "added");
    assertThat(history.lines()).isSortedAccordingTo((a, b) -> b.at().compareTo(a.at()));
    assertThat(history.own()).isEqualTo(new FaultRate(1, 40));
    assertThat(history.own().per100()).isEqualTo(2.5);
  }

  @Test
  void aMoveToAnotherLocationIsForUnitsInHand() {
    lend(7L);
    Long elsewhere = scene.location();
    assertThatThrownBy(() -> keeping.move(tag, elsewhere, null, scene.now()))
        .isInstanceOf(Refusal.class);
    shelf.end(id(), UseKind.LOAN, 7L, scene.now(), UnitState.TO_WIPE);
    keeping.move(tag, elsewhere, null, scene.now());
    assertThat(shelf.byTag(tag).locationId()).isEqualTo(elsewhere);
  }

  private void lend(Long loan) {
    shelf.begin(
        id(), UseKind.LOAN, loan, scene.now().at(), scene.in(Duration.ofDays(28)), scene.now());
  }

  private UnitState state() {
    return shelf.byTag(tag).state();
  }

  private Long id() {
    return shelf.byTag(tag).id();
  }

  @Singleton
  static class Dropped {
    final List<ReservationDropped> seen = new ArrayList<>();

    void hear(@Observes ReservationDropped event) {
      seen.add(event);
    }
  }
}
