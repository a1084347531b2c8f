package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * A unit whose electrical test is overdue serves nobody. Tests are dated, recur at an interval that
 * the facility sets, and are due again after a repair (IEC 62353:2014; NFPA 99-2012 ch. 10 as
 * surveyors quote it); again after a drop is common practice, no source.
 */
@QuarkusTest
class SafetyTestGateTest {
  @Inject ShelfScene scene;
  @Inject Shelf shelf;
  @Inject UnitCare care;
  @Inject Locations locations;

  private Long location;
  private String tag;
  private LocalDate today;

  @BeforeEach
  void aReadyUnit() {
    location = scene.location();
    tag = scene.readyUnit(location, scene.kind(2)).tag();
    today = locations.today(location);
  }

  @Test
  void refusesToReserveAUnitWhoseTestIsOverdue() {
    scene.set(tag, unit -> unit.nextTestOn = today.minusDays(1));
    assertThatThrownBy(() -> shelf.reserve(id(), 1L, scene.now()))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("safety test of unit " + tag + " was due");
  }

  @Test
  void reservesOnTheDayItIsDue() {
    scene.set(tag, unit -> unit.nextTestOn = today);
    shelf.reserve(id(), 1L, scene.now());
    assertThat(shelf.byTag(tag).state()).isEqualTo(UnitState.RESERVED);
  }

  @Test
  void refusesATreatmentToo() {
    scene.set(tag, unit -> unit.nextTestOn = null);
    assertThatThrownBy(
            () -> shelf.begin(id(), UseKind.TREATMENT, 1L, scene.now().at(), null, scene.now()))
        .hasMessageContaining("No safety test");
  }

  @Test
  void theNextOneIsDueAfterTheLocationsInterval() {
    locations.choose(location, Map.of(Setting.TEST_INTERVAL_MONTHS.key(), "18"));
    LocalDate next =
        care.tested(
            tag, new UnitCare.NewTest(today, true, null, "Volta Bench", "P-77", null), scene.now());
    assertThat(next).isEqualTo(today.plusMonths(18));
    assertThat(shelf.byTag(tag).nextTestOn()).isEqualTo(next);
  }

  @Test
  void aTypedDayRulesWithinThreeYears() {
    care.tested(
        tag, new UnitCare.NewTest(today, true, today.plusMonths(6), null, null, null), scene.now());
    assertThat(shelf.byTag(tag).nextTestOn()).isEqualTo(today.plusMonths(6));
    assertThatThrownBy(
            () ->
                care.tested(
                    tag,
                    new UnitCare.NewTest(today, true, today.plusMonths(37), null, null, null),
                    scene.now()))
        .hasMessageContaining("within 36 months");
  }

  @Test
  void anOlderTestEnteredLateDoesNotSetTheDay() {
    care.tested(tag, new UnitCare.NewTest(today, true, null, null, null, null), scene.now());
    LocalDate due = shelf.byTag(tag).nextTestOn();
    care.tested(
        tag, new UnitCare.NewTest(today.minusYears(1), true, null, null, null, null), scene.now());
    assertThat(shelf.byTag(tag).nextTestOn()).isEqualTo(due);
  }

  @Test
  void aFailedTestTakesItOutOfService() {
    care.tested(tag, new UnitCare.NewTest(today, false, null, null, null, "leaks"), scene.now());
    UnitView unit = shelf.byTag(tag);
    assertThat(unit.state()).isEqualTo(UnitState.OUT_OF_SERVICE);
    assertThat(unit.testDue()).isTrue();
  }

  @Test
  void aTestInTheFutureIsRefused() {
    assertThatThrownBy(
            () ->
                care.tested(
                    tag,
                    new UnitCare.NewTest(today.plusDays(1), true, null, null, null, null),
                    scene.now()))
        .hasMessageContaining("future");
  }

  @Test
  void afterARepairTheEarlierTestCountsNoMore() {
    care.outOfService(tag, UnitCare.Cause.REPAIR, "new socket", scene.now());
    care.toInspection(tag, scene.now());
    scene.pass(tag, scene.now());
    assertThat(shelf.whyNotReadyToLeave(id(), null, null))
        .extracting(Reason::field)
        .contains("safetyTest");
  }

  @Test
  void aTestThatFallsInsideALoanNeedsABookedDay() {
    scene.set(tag, unit -> unit.nextTestOn = today.plusDays(10));
    assertThat(shelf.whyNotReadyToLeave(id(), today.plusDays(20), null))
        .singleElement()
        .satisfies(
            reason -> {
              assertThat(reason.field()).isEqualTo(Shelf.BRING_IN);
              assertThat(reason.cure()).contains("bring it in");
            });
    assertThat(shelf.whyNotReadyToLeave(id(), today.plusDays(10), null)).isEmpty();
  }

  private Long id() {
    return shelf.byTag(tag).id();
  }
}
