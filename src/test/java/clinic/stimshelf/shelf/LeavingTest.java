package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** No unit goes to a home unless it is wiped, inspected, charged, tested and whole. */
@QuarkusTest
class LeavingTest {
  @Inject ShelfScene scene;
  @Inject Shelf shelf;
  @Inject UnitCare care;
  @Inject Kits kits;

  private Long location;
  private String kind;
  private String tag;

  @BeforeEach
  void aReadyUnit() {
    location = scene.location();
    kind = scene.kind(2);
    tag = scene.readyUnit(location, kind).tag();
  }

  @Test
  void aReadyUnitMayLeave() {
    assertThat(against()).isEmpty();
    lend(1L);
    assertThat(shelf.byTag(tag).state()).isEqualTo(UnitState.ON_LOAN);
  }

  @Test
  void everythingThatStandsAgainstItIsSaidAtOnceWithItsCure() {
    kits.missing(part(Part.LEAD_SET), scene.now());
    scene.set(
        tag,
        unit -> {
          unit.chargedAt = null;
          unit.nextTestOn = null;
          unit.purpose = Purpose.CLINIC;
          unit.state = UnitState.TO_WIPE;
        });
    List<Reason> against = against();
    assertThat(against)
        .extracting(Reason::field)
        .containsExactlyInAnyOrder("state", "safetyTest", "purpose", "charge", "kit");
    assertThat(against).allSatisfy(reason -> assertThat(reason.cure()).isNotBlank());
    assertThatThrownBy(() -> lend(1L))
        .isInstanceOfSatisfying(
            Refusal.class, refusal -> assertThat(refusal.reasons()).hasSameSizeAs(against));
  }

  @Test
  void anEssentialPartMustBeThereAndABagMayBeOwed() {
    kits.missing(part(Part.BAG), scene.now());
    assertThat(against()).isEmpty();
    kits.missing(part(Part.CHARGER), scene.now());
    assertThat(against()).extracting(Reason::field).containsExactly("kit");
    kits.back(part(Part.CHARGER), scene.now());
    assertThat(against()).isEmpty();
  }

  @Test
  void whoHasItAndWhatIsFreeStandsInTheReason() {
    String other = scene.readyUnit(location, kind).tag();
    lend(1L);
    assertThat(against())
        .filteredOn(reason -> "state".equals(reason.field()))
        .singleElement()
        .satisfies(
            reason -> {
              assertThat(reason.message()).contains("on loan since", "until");
              assertThat(reason.cure()).isEqualTo("Free now: " + other + ".");
            });
  }

  @Test
  void anothersUseIsAConflictOnlyWhereItIsTheSoleReason() {
    lend(1L);
    assertThatThrownBy(() -> lend(2L)).isInstanceOf(InUse.class);
    scene.set(tag, unit -> unit.nextTestOn = null);
    assertThatThrownBy(() -> lend(2L))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("on loan since")
        .hasMessageContaining("No safety test");
  }

  @Test
  void whatComesFreeNextIsNamedWhereNothingIsFree() {
    String other = scene.readyUnit(location, kind).tag();
    lend(1L);
    shelf.begin(
        shelf.byTag(other).id(),
        UseKind.LOAN,
        9L,
        scene.now().at(),
        scene.in(Duration.ofDays(3)),
        scene.now());
    assertThatThrownBy(() -> lend(2L)).hasMessageContaining("Next: " + other + ", expected back");
  }

  @Test
  void aUnitReservedForOneRequestIsNotLentToAnother() {
    shelf.reserve(id(), 41L, scene.now());
    assertThatThrownBy(() -> lend(1L))
        .isInstanceOf(InUse.class)
        .hasMessageContaining("reserved for another request");
    shelf.begin(
        id(), UseKind.LOAN, 1L, 41L, scene.now().at(), scene.in(Duration.ofDays(9)), scene.now());
    assertThat(shelf.byTag(tag).use().subjectId()).isEqualTo(1L);
  }

  @Test
  void aUnitHeldByHandIsLentToNobodyUntilItIsReleased() {
    shelf.hold(id(), "open house on Friday", scene.now());
    assertThatThrownBy(() -> lend(1L)).hasMessageContaining("open house on Friday");
    shelf.release(id(), scene.now());
    lend(1L);
  }

  private List<Reason> against() {
    return shelf.whyNotReadyToLeave(id(), null, null);
  }

  private void lend(Long loan) {
    shelf.begin(
        id(), UseKind.LOAN, loan, scene.now().at(), scene.in(Duration.ofDays(28)), scene.now());
  }

  private Long id() {
    return shelf.byTag(tag).id();
  }

  private Long part(Part part) {
    return shelf.byTag(tag).contents().stream()
        .filter(item -> item.part() == part)
        .findFirst()
        .orElseThrow()
        .id();
  }
}
