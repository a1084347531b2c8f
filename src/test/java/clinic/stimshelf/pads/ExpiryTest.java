package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.testing.Crew;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What expires unused here could be used there. */
@QuarkusTest
class ExpiryTest {
  @Inject Crew crew;
  @Inject Cupboard cupboard;
  @Inject PadEntries entries;
  @Inject Expiry expiry;

  @Test
  void a_lot_that_nobody_uses_here_is_offered_to_who_uses_it_in_time() {
    Long idle = crew.location(Crew.unique("IDLE"));
    Long busy = crew.location(Crew.unique("BUSY"));
    PadTypeView type = cupboard.type();
    cupboard.lot(type, idle, "SOON", 27, 20);
    cupboard.lot(type, idle, "NEXT", 27, 20);
    cupboard.lot(type, busy, "FAR", 400, 28);
    for (int n = 0; n < 28; n++) {
      entries.enterPacks(
          new PastPacks(
              "busy " + n + type.code(),
              type.code(),
              "FAR",
              null,
              null,
              busy,
              1,
              MovementReason.DRAWER_TAKE,
              DrawerReason.TRIAL,
              null,
              null,
              null,
              null,
              cupboard.now().at()));
    }

    Expiry.View view = expiry.at(List.of(idle), List.of(idle, busy));

    List<Expiry.Unused> lots =
        view.unused().stream().filter(one -> one.code().equals(type.code())).toList();
    Expiry.Unused lot = lots.get(1);
    assertThat(lot.lot()).isEqualTo("SOON");
    assertThat(lot.packs()).isEqualTo(20);
    assertThat(lot.expiresOn()).isEqualTo(cupboard.today(idle).plusDays(27));
    // One a day for 28 days and nothing there: 28, of which the other lot takes 20.
    assertThat(lots.get(0).elsewhere()).extracting(Expiry.Use::packs).containsExactly(20);
    assertThat(lot.elsewhere()).extracting(Expiry.Use::packs).containsExactly(8);
  }
}
