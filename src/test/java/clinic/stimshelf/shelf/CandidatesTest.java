package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Which unit is proposed first. */
@QuarkusTest
class CandidatesTest {
  @Inject ShelfScene scene;
  @Inject Shelf shelf;

  @Test
  void readyOnesFirstThenChargedThenNoMoreChannelsThanNeeded() {
    Long location = scene.location();
    String two = scene.kind(2);
    String four = scene.kind(4);
    String big = scene.readyUnit(location, four).tag();
    String flat = scene.readyUnit(location, two).tag();
    scene.set(flat, unit -> unit.chargedAt = null);
    String fit = scene.readyUnit(location, two).tag();
    String bench = scene.newUnit(location, two);
    String held = scene.readyUnit(location, two).tag();
    shelf.reserve(shelf.byTag(held).id(), 1L, scene.now());
    assertThat(shelf.candidates(location, 2, Set.of("pin-2mm"), "home"))
        .extracting(UnitView::tag)
        .containsExactly(fit, big, flat, held, bench);
    assertThat(shelf.candidates(location, 3, Set.of(), "home"))
        .extracting(UnitView::tag)
        .containsExactly(big);
    assertThat(shelf.candidates(location, 2, Set.of("snap"), "home")).isEmpty();
  }

  @Test
  void clinicUnitsAreNotProposedForAHomeNorRetiredOnesForAnything() {
    Long location = scene.location();
    String kind = scene.kind(2);
    String clinic = scene.readyUnit(location, kind).tag();
    scene.set(clinic, unit -> unit.purpose = Purpose.CLINIC);
    String gone = scene.readyUnit(location, kind).tag();
    scene.set(gone, unit -> unit.state = UnitState.RETIRED);
    assertThat(shelf.candidates(location, 2, Set.of(), "home")).isEmpty();
    assertThat(shelf.candidates(location, 2, Set.of(), "clinic"))
        .extracting(UnitView::tag)
        .containsExactly(clinic);
  }
}
