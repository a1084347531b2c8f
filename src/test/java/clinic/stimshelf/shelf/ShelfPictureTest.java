package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Each unit is a box with its state by word and what to know next. */
@QuarkusTest
class ShelfPictureTest {
  @Inject ShelfScene scene;
  @Inject Shelf shelf;
  @Inject ShelfPictures pictures;

  private Long location;
  private String tag;

  @BeforeEach
  void aReadyUnit() {
    location = scene.location();
    tag = scene.readyUnit(location, scene.kind(2)).tag();
  }

  @Test
  void aReadyUnitShowsItsChannels() {
    assertThat(box()).isEqualTo(new ShelfPicture.Box(tag, "ready", "ready", "2 ch", false));
    assertThat(pictures.of(location).here()).isEqualTo(1);
  }

  @Test
  void aFlatUnitIsToCharge() {
    scene.set(tag, unit -> unit.chargedAt = null);
    assertThat(box().word()).isEqualTo("to-charge");
  }

  @Test
  void aLentUnitShowsItsDayAndALateOneHowLate() {
    lend(Duration.ofDays(5));
    assertThat(box().out()).isTrue();
    assertThat(box().detail()).startsWith("back ");
    assertThat(pictures.of(location).out()).isEqualTo(1);
    shelf.expect(
        shelf.byTag(tag).id(), UseKind.LOAN, 1L, scene.in(Duration.ofDays(-2)), scene.now());
    assertThat(box().word()).isEqualTo("late");
    assertThat(box().detail()).isEqualTo("2 days");
  }

  @Test
  void aWipedUnitCountsItsMinutesDown() {
    scene.set(
        tag,
        unit -> {
          unit.state = UnitState.TO_WIPE;
          unit.wipeCountsAt = scene.in(Duration.ofSeconds(150));
        });
    assertThat(box().detail()).isEqualTo("3 min left");
  }

  private void lend(Duration time) {
    shelf.begin(
        shelf.byTag(tag).id(), UseKind.LOAN, 1L, scene.now().at(), scene.in(time), scene.now());
  }

  private ShelfPicture.Box box() {
    return pictures.of(location).boards().get(0).boxes().get(0);
  }
}
