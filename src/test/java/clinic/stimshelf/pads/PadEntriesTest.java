package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.web.Refusal;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The past enters from files: the same row twice changes nothing, a wrong row says everything. */
@QuarkusTest
class PadEntriesTest {
  @Inject Cupboard cupboard;
  @Inject PadEntries entries;
  @Inject PadCatalog catalog;

  private Long here;
  private PadTypeView type;

  @BeforeEach
  void ownCupboard() {
    here = cupboard.location();
    type = cupboard.type();
  }

  @Test
  void a_known_ref_changes_nothing() {
    Long first = entries.enterPacks(row("r1", "L1", 8, MovementReason.OPENING, 20));
    Long again = entries.enterPacks(row("r1", "L1", 8, MovementReason.OPENING, 20));

    assertThat(again).isEqualTo(first);
    assertThat(cupboard.packs(cupboard.lotId(type, "L1"), here)).isEqualTo(8);
    Long lot =
        entries.enterLot("l-" + type.code(), type.code(), "L2", day(90), null, "dusty", false);
    assertThat(entries.enterLot("l-" + type.code(), type.code(), "L2", day(90), null, null, false))
        .isEqualTo(lot);
    NewPadType past = cupboard.type("x" + type.code(), "X" + type.code());
    assertThat(catalog.enterPadType(past)).isEqualTo(catalog.enterPadType(past));
  }

  @Test
  void what_leaves_without_a_lot_is_of_the_first_to_expire() {
    entries.enterPacks(row("a", "LATE", 5, MovementReason.DELIVERY, 30, day(400)));
    entries.enterPacks(row("b", "EARLY", 5, MovementReason.DELIVERY, 30, day(100)));
    entries.enterPacks(row("c", null, 2, MovementReason.EXPIRED, 10));

    assertThat(cupboard.packs(cupboard.lotId(type, "EARLY"), here)).isEqualTo(3);
    assertThat(cupboard.packs(cupboard.lotId(type, "LATE"), here)).isEqualTo(5);
  }

  @Test
  void no_more_leaves_than_came() {
    entries.enterPacks(row("a", "L", 5, MovementReason.DELIVERY, 30));

    assertThatThrownBy(() -> entries.enterPacks(row("b", "L", 6, MovementReason.DISCARDED, 3)))
        .isInstanceOf(Refusal.class);
    assertThat(cupboard.packs(cupboard.lotId(type, "L"), here)).isEqualTo(5);
  }

  @Test
  void a_row_is_told_everything_that_is_wrong_with_it() {
    PastPacks wrong =
        new PastPacks(
            "w",
            "no-such-code",
            null,
            null,
            null,
            here,
            0,
            MovementReason.DRAWER_TAKE,
            null,
            null,
            null,
            null,
            null,
            null);

    assertThatThrownBy(() -> entries.enterPacks(wrong))
        .isInstanceOfSatisfying(
            Refusal.class,
            refusal ->
                assertThat(refusal.reasons())
                    .extracting(reason -> reason.field())
                    .contains("code", "packs", "happenedAt", "drawerReason"));
  }

  @Test
  void counts_moves_and_reversals_do_not_come_out_of_files() {
    assertThatThrownBy(() -> entries.enterPacks(row("z", "L", 1, MovementReason.REVERSAL, 3)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("reversal");
  }

  private LocalDate day(int inDays) {
    return cupboard.today(here).plusDays(inDays);
  }

  private PastPacks row(String ref, String lot, int packs, MovementReason reason, int daysAgo) {
    return row(ref, lot, packs, reason, daysAgo, lot == null ? null : day(300));
  }

  private PastPacks row(
      String ref, String lot, int packs, MovementReason reason, int daysAgo, LocalDate expiresOn) {
    return new PastPacks(
        ref + type.code(),
        type.code(),
        lot,
        expiresOn,
        null,
        here,
        packs,
        reason,
        null,
        null,
        null,
        null,
        null,
        cupboard.daysAgo(daysAgo, null).at());
  }
}
