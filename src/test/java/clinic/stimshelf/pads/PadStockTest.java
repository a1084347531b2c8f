package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Design rule 3: pads are safe. */
@QuarkusTest
class PadStockTest {
  private static final AtomicLong LOANS = new AtomicLong(900_000);

  @Inject Cupboard cupboard;
  @Inject PadStock stock;
  @Inject PadLots lots;
  @Inject Locations locations;

  private Long loan;
  private Long patient;
  private Long here;
  private PadTypeView type;

  @BeforeEach
  void ownCupboard() {
    loan = LOANS.incrementAndGet();
    here = cupboard.location();
    type = cupboard.type();
    patient = cupboard.patient(here);
  }

  @Test
  void proposes_the_first_expiry_first() {
    Long late = cupboard.lot(type, here, "B/2", 400, 5);
    Long early = cupboard.lot(type, here, "A/1", 100, 2);

    assertThat(stock.propose(type.code(), here, 4, cupboard.today(here)))
        .extracting(PackLine::lotId, PackLine::packs)
        .containsExactly(tuple(early, 2), tuple(late, 2));
  }

  @Test
  void proposes_only_what_has_not_expired_on_the_day_it_is_needed() {
    cupboard.lot(type, here, "SOON", 10, 5);
    Long late = cupboard.lot(type, here, "LATER", 60, 5);

    assertThat(stock.propose(type.code(), here, 2, cupboard.today(here).plusDays(11)))
        .extracting(PackLine::lotId)
        .containsExactly(late);
  }

  @Test
  void proposes_what_there_is_when_there_is_not_enough() {
    cupboard.lot(type, here, "FEW", 60, 3);

    assertThat(stock.propose(type.code(), here, 8, cupboard.today(here)))
        .extracting(PackLine::packs)
        .containsExactly(3);
  }

  @Test
  void a_given_pack_leaves_the_cupboard_and_stands_in_the_ledger() {
    Long lot = cupboard.lot(type, here, "A", 100, 5);

    give(new PackLine(lot, 2, null));

    assertThat(cupboard.packs(lot, here)).isEqualTo(3);
    assertThat(cupboard.ledger(lot, here)).isEqualTo(3);
    assertThat(stock.givenWith(loan)).extracting(GivenPacks::packs).containsExactly(2);
  }

  @Test
  void a_later_lot_needs_a_reason() {
    cupboard.lot(type, here, "EARLY", 100, 5);
    Long late = cupboard.lot(type, here, "LATE", 400, 5);

    assertThatThrownBy(() -> give(new PackLine(late, 1, null)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("EARLY");
    assertThat(cupboard.packs(late, here)).isEqualTo(5);

    give(new PackLine(late, 1, "the early box is sealed for the fair"));
    assertThat(cupboard.packs(late, here)).isEqualTo(4);
  }

  @Test
  void a_later_lot_needs_no_reason_once_the_earlier_one_is_taken_whole() {
    Long early = cupboard.lot(type, here, "EARLY", 100, 2);
    Long late = cupboard.lot(type, here, "LATE", 400, 5);

    give(new PackLine(late, 1, null), new PackLine(early, 2, null));

    assertThat(cupboard.packs(early, here)).isZero();
    assertThat(cupboard.packs(late, here)).isEqualTo(4);
  }

  @Test
  void nothing_expired_leaves() {
    Long lot = cupboard.lot(type, here, "OLD", 0, 5);
    cupboard.expire(lot, cupboard.today(here).minusDays(1));

    assertThatThrownBy(() -> give(new PackLine(lot, 1, "all there is")))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("expired");
    assertThat(cupboard.packs(lot, here)).isEqualTo(5);
  }

  @Test
  void a_pack_may_leave_on_its_last_day_but_not_for_a_later_day() {
    Long lot = cupboard.lot(type, here, "LAST", 0, 5);

    give(new PackLine(lot, 1, null));
    assertThatThrownBy(() -> give(new PackLine(lot, 1, null, cupboard.today(here).plusDays(1))))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("before it is needed");
    assertThat(cupboard.packs(lot, here)).isEqualTo(4);
  }

  @Test
  void nothing_quarantined_leaves_until_it_is_released() {
    Long lot = cupboard.lot(type, here, "Q", 100, 5);
    lots.quarantine(lot, "gel smells odd", false, cupboard.now());

    assertThat(stock.propose(type.code(), here, 1, cupboard.today(here))).isEmpty();
    assertThatThrownBy(() -> give(new PackLine(lot, 1, null)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("gel smells odd");

    lots.release(lot, "maker tested it", cupboard.now());
    give(new PackLine(lot, 1, null));
    assertThat(cupboard.packs(lot, here)).isEqualTo(4);
  }

  @Test
  void nothing_recalled_leaves_by_the_drawer_either() {
    Long lot = cupboard.lot(type, here, "R", 100, 5);
    lots.quarantine(lot, "maker's letter of May", true, cupboard.now());

    assertThatThrownBy(() -> drawer(lot, 1)).isInstanceOf(Refusal.class);
    assertThatThrownBy(() -> drawer(null, 1)).isInstanceOf(Refusal.class);
    assertThat(cupboard.packs(lot, here)).isEqualTo(5);
  }

  @Test
  void says_everything_that_stands_against_it_at_once() {
    Long held = cupboard.lot(type, here, "H", 100, 1);
    Long good = cupboard.lot(type, here, "G", 200, 1);
    lots.quarantine(held, "dust", false, cupboard.now());

    List<Reason> reasons =
        stock.whyNotGive(
            here,
            List.of(new PackLine(held, 1, null), new PackLine(good, 4, null)),
            cupboard.now().at());

    assertThat(reasons).hasSize(2);
    assertThat(reasons).allSatisfy(reason -> assertThat(reason.cure()).isNotBlank());
  }

  @Test
  void sealed_packs_come_back_only_where_the_location_allows_it() {
    Long lot = cupboard.lot(type, here, "S", 100, 5);
    give(new PackLine(lot, 3, null));

    assertThatThrownBy(() -> back(lot, 1))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("does not put packs from a home back");

    locations.choose(here, Map.of(Setting.SEALED_PACKS_RETURN.key(), "yes"));
    back(lot, 1);
    assertThat(cupboard.packs(lot, here)).isEqualTo(3);
    assertThat(stock.givenWith(loan)).extracting(GivenPacks::packs).containsExactly(2);
  }

  @Test
  void no_more_comes_back_than_was_given() {
    Long lot = cupboard.lot(type, here, "S", 100, 5);
    locations.choose(here, Map.of(Setting.SEALED_PACKS_RETURN.key(), "yes"));
    give(new PackLine(lot, 2, null));
    back(lot, 1);

    assertThatThrownBy(() -> back(lot, 2))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("has 1 packs");
  }

  @Test
  void a_drawer_take_needs_a_reason_and_other_needs_a_note() {
    Long lot = cupboard.lot(type, here, "D", 100, 5);

    assertThatThrownBy(
            () ->
                stock.drawerTake(
                    new DrawerTake(lot, null, here, 1, null, null, null, null), cupboard.now()))
        .isInstanceOf(Refusal.class);
    assertThatThrownBy(
            () ->
                stock.drawerTake(
                    new DrawerTake(lot, null, here, 1, DrawerReason.OTHER, " ", null, null),
                    cupboard.now()))
        .isInstanceOf(Refusal.class);
    drawer(null, 2);
    assertThat(cupboard.packs(lot, here)).isEqualTo(3);
  }

  @Test
  void what_is_entered_late_is_held_against_its_own_time() {
    Long lot = cupboard.lot(type, here, "NEW", 100, 5);

    assertThatThrownBy(
            () ->
                stock.give(
                    loan,
                    patient,
                    here,
                    List.of(new PackLine(lot, 1, null)),
                    cupboard.daysAgo(3, "was written on paper")))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("At that time");
    assertThat(cupboard.packs(lot, here)).isEqualTo(5);
  }

  private void give(PackLine... lines) {
    stock.give(loan, patient, here, List.of(lines), cupboard.now());
  }

  private void back(Long lot, int packs) {
    stock.takeBackSealed(
        loan, patient, here, List.of(new PackLine(lot, packs, null)), cupboard.now());
  }

  private void drawer(Long lot, int packs) {
    stock.drawerTake(
        new DrawerTake(
            lot, type.code(), here, packs, DrawerReason.TREATMENT, null, null, "asked for"),
        cupboard.now());
  }
}
