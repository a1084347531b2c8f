package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Refusal;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * Body fluid, pests, contact precautions: another product counts, and the kit is held. Days of a
 * hold are common practice, no source; that the next person must not have it before it is
 * disinfected is from memory of the CDC guideline (2008).
 */
@QuarkusTest
class SoilingTest {
  @Inject ShelfScene scene;
  @Inject Shelf shelf;
  @Inject UnitCare care;
  @Inject SoilingRules rules;
  @Inject WipeProducts products;
  @Inject Locations locations;
  @Inject Trail trail;
  @Inject BetweenUsesTest.Dropped dropped;

  private Long place;
  private String tag;

  @BeforeEach
  void aReadyUnit() {
    place = scene.location();
    tag = scene.readyUnit(place, scene.kind(2)).tag();
  }

  @Test
  void afterPestsNothingLeavesBeforeTheHoldIsOverHoweverWellItIsWiped() {
    care.soiled(tag, Set.of(Soiling.PESTS), scene.now());
    UnitView held = shelf.byTag(tag);
    assertThat(held.state()).isEqualTo(UnitState.TO_WIPE);
    // Fourteen days stand in the settings of a location that chose nothing.
    assertThat(held.heldUntil())
        .isBetween(
            scene.in(Duration.ofHours(14 * 24 - 2)), scene.in(Duration.ofHours(14 * 24 + 2)));
    care.wiped(tag, null, null, scene.now());
    scene.set(tag, unit -> unit.wipeCountsAt = scene.now().at());
    assertThat(shelf.byTag(tag).state()).as("wiped, and still held").isEqualTo(UnitState.TO_WIPE);
    assertThat(shelf.byTag(tag).readyAt()).isEqualTo(shelf.byTag(tag).heldUntil());
    for (UseKind kind : UseKind.values()) {
      assertThatThrownBy(
              () -> shelf.begin(held.id(), kind, 3L, scene.now().at(), null, scene.now()))
          .isInstanceOf(Refusal.class)
          .hasMessageContaining("still held");
    }
    assertThatThrownBy(() -> shelf.reserve(held.id(), 3L, scene.now()))
        .hasMessageContaining("still held");
    scene.set(tag, unit -> unit.heldUntil = scene.now().at());
    UnitView free = shelf.byTag(tag);
    assertThat(free.state()).isEqualTo(UnitState.READY);
    assertThat(free.soiling()).isEmpty();
    assertThat(free.heldUntil()).isNull();
  }

  @Test
  void afterBodyFluidOnlyTheProductsOfTheRuleCountAndTheFirstIsProposed() {
    care.soiled(tag, Set.of(Soiling.BODY_FLUID), scene.now());
    assertThat(shelf.byTag(tag).heldUntil()).as("no days of hold").isNull();
    assertThatThrownBy(() -> care.wiped(tag, "gray-tub", null, scene.now()))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Spray and cloth");
    care.wiped(tag, null, null, scene.now());
    // The label of “spray and cloth” says ten minutes (config/wipe-products.yaml).
    assertThat(shelf.byTag(tag).readyAt())
        .isBetween(scene.in(Duration.ofMinutes(9)), scene.in(Duration.ofMinutes(11)));
    scene.set(tag, unit -> unit.wipeCountsAt = scene.now().at());
    assertThat(shelf.byTag(tag).state()).isEqualTo(UnitState.READY);
  }

  @Test
  void severalAddUpTheLongestHoldCountsAndALocationHasItsOwnDays() {
    locations.choose(place, Map.of("pests-hold-days", "3", "contact-precautions-hold-days", "5"));
    care.soiled(tag, Set.of(Soiling.CONTACT_PRECAUTIONS), scene.now());
    care.soiled(tag, Set.of(Soiling.PESTS), scene.now());
    UnitView unit = shelf.byTag(tag);
    assertThat(unit.soiling())
        .containsExactlyInAnyOrder(Soiling.CONTACT_PRECAUTIONS, Soiling.PESTS);
    assertThat(unit.heldUntil())
        .isBetween(scene.in(Duration.ofHours(5 * 24 - 2)), scene.in(Duration.ofHours(5 * 24 + 2)));
  }

  @Test
  void whatIsSeenOnlyAfterTheWipeMakesThatWipeCountNoMore() {
    scene.set(tag, unit -> unit.state = UnitState.TO_WIPE);
    care.wiped(tag, "gray-tub", null, scene.now());
    care.soiled(tag, Set.of(Soiling.BODY_FLUID), scene.now());
    assertThat(shelf.byTag(tag).readyAt()).isNull();
    assertThat(shelf.byTag(tag).state()).isEqualTo(UnitState.TO_WIPE);
  }

  @Test
  void toldWhileSomebodyHasTheUnitItIsDealtWithWhenItIsBack() {
    Long id = shelf.byTag(tag).id();
    shelf.begin(id, UseKind.TREATMENT, 3L, scene.now().at(), null, scene.now());
    care.soiled(tag, Set.of(Soiling.BODY_FLUID), scene.now());
    assertThat(shelf.byTag(tag).state()).isEqualTo(UnitState.IN_TREATMENT);
    shelf.cancelUse(id, UseKind.TREATMENT, 3L, scene.now());
    assertThat(shelf.byTag(tag).state())
        .as("a use voided does not make it clean")
        .isEqualTo(UnitState.TO_WIPE);
  }

  @Test
  void aMistakeIsTakenOffWithItsReasonAndLeavesBothLinesInTheTrail() {
    care.soiled(tag, Set.of(Soiling.PESTS), scene.now());
    assertThatThrownBy(() -> care.notSoiled(tag, " ", scene.now())).isInstanceOf(Refusal.class);
    care.notSoiled(tag, "it was lint", scene.now());
    UnitView unit = shelf.byTag(tag);
    assertThat(unit.heldUntil()).isNull();
    assertThat(unit.soiling()).isEmpty();
    assertThat(unit.state()).as("it is still wiped").isEqualTo(UnitState.TO_WIPE);
    assertThat(trail.of(Subject.of("unit", tag)))
        .extracting(entry -> entry.action())
        .startsWith("not soiled: it was lint", "soiled");
    assertThatThrownBy(() -> care.notSoiled(tag, "again", scene.now())).isInstanceOf(Refusal.class);
  }

  @Test
  void aReservationThatIsLostIsTold() {
    Long id = shelf.byTag(tag).id();
    shelf.reserve(id, 77L, scene.now());
    care.soiled(tag, Set.of(Soiling.PESTS), scene.now());
    assertThat(dropped.seen).contains(new ReservationDropped(id, UseKind.LOAN, 77L));
  }

  @Test
  void aFileWithoutOneProductForAllOfThemIsRefused() {
    List<SoilingRules.Rule> apart =
        Arrays.stream(Soiling.values())
            .map(
                one ->
                    new SoilingRules.Rule(
                        one.word(),
                        List.of(one == Soiling.PESTS ? "gray-tub" : "blue-tub"),
                        "common practice, no source"))
            .toList();
    assertThatThrownBy(() -> new SoilingRules(new SoilingRules.Listed(apart), products))
        .hasMessageContaining("under every rule");
    assertThatThrownBy(() -> new SoilingRules(new SoilingRules.Listed(List.of()), products))
        .hasMessageContaining("body-fluid");
    assertThat(rules.allowed(List.of(Soiling.values()))).isNotEmpty();
  }
}
