package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.audit.Happened;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What stands in the cupboard, the ledger and the other rooms becomes facts to reckon with. */
@QuarkusTest
class ReordersTest {
  @Inject Cupboard cupboard;
  @Inject KnownDemand known;
  @Inject Reorders reorders;
  @Inject PadStock stock;
  @Inject PadLots lots;
  @Inject PadEntries entries;
  @Inject Supply supply;

  private Long here;
  private PadTypeView type;

  @BeforeEach
  void ownCupboard() {
    here = cupboard.location();
    type = cupboard.type();
  }

  @Test
  void the_position_follows_what_happens() {
    Long good = cupboard.lot(type, here, "GOOD", 300, 20);
    Long held = cupboard.lot(type, here, "HELD", 300, 7);
    Long old = cupboard.lot(type, here, "OLD", 1, 3);
    lots.quarantine(held, "dust", false, cupboard.now());
    cupboard.expire(old, cupboard.today(here).minusDays(2));
    Long order = order(12, 0);
    supply.receive(new NewDelivery(here, order, null, List.of(line("NEW", 5))), cupboard.now());
    stock.give(
        1L, cupboard.patient(here), here, List.of(new PackLine(good, 2, null)), cupboard.now());
    known.at(here, List.of(), 4);

    PadPosition position = stock.position(type.code(), here);

    assertThat(position.onHand()).isEqualTo(20 + 7 + 3 + 5 - 2);
    assertThat(position.quarantined()).isEqualTo(7);
    assertThat(position.expired()).isEqualTo(3);
    assertThat(position.onOrder()).isEqualTo(7);
    assertThat(position.owed()).isEqualTo(4);
    assertThat(position.position()).isEqualTo(33 - 7 - 3 + 7 - 4);
  }

  @Test
  void dated_packs_of_other_rooms_are_demand_once_and_never_if_owed() {
    LocalDate today = cupboard.today(here);
    known.at(
        here,
        List.of(
            new DatedPacks(type.code(), today.plusDays(3), 6, "program of somebody", false),
            new DatedPacks(type.code(), today.plusDays(3), 5, "already owed", true)),
        5);

    ReorderView answer = reorders.reorder(type.code(), here);

    assertThat(answer.meanDemand()).isEqualTo(6);
    assertThat(answer.position()).isEqualTo(-5);
    assertThat(stock.position(type.code(), here).committed()).isEqualTo(6);
  }

  @Test
  void lead_times_are_learnt_from_deliveries_once_a_day_and_line() {
    for (int days : new int[] {3, 4, 5, 6}) {
      Long order = order(10, days + 1);
      supply.receive(
          new NewDelivery(here, order, null, List.of(line("A" + days, 4), line("B" + days, 6))),
          cupboard.daysAgo(1, "paper note"));
    }

    ReorderView answer = reorders.reorder(type.code(), here);

    assertThat(answer.leadDaysSeen()).isEqualTo(4);
    // Four of their own and the type's seven days for the missing fifth.
    assertThat(answer.leadDays()).isEqualTo((3 + 4 + 5 + 6 + 7) / 5.0);
  }

  @Test
  void drawer_takes_and_new_starts_come_from_the_ledger_and_undone_lines_do_not_count() {
    cupboard.lot(type, here, "A", 300, 100);
    past("GIVEN", MovementReason.OPENING, 60, 200, null);
    past("d1", MovementReason.DRAWER_TAKE, 2, 56, null);
    past("d2", MovementReason.DRAWER_TAKE, 1, 30, null);
    past("g1", MovementReason.GIVEN, 3, 20, 11L);
    past("g1b", MovementReason.GIVEN, 2, 18, 11L);
    past("g1c", MovementReason.GIVEN, 4, 2, 11L);
    past("g2", MovementReason.GIVEN, 1, 5, 12L);
    Long wrong = past("d3", MovementReason.DRAWER_TAKE, 9, 10, null);
    stock.reverse(wrong, "twice entered", cupboard.now());

    ReorderView answer = reorders.reorder(type.code(), here);

    // 56 days of history, 7 until delivery, 7 until the next look: a quarter of it.
    assertThat(answer.reasons())
        .filteredOn(reason -> reason.kind().equals("drawer"))
        .extracting(reason -> reason.packs().doubleValue())
        .containsExactly(0.75);
    // Program 11 drew 5 in its first seven days, program 12 one.
    assertThat(answer.reasons())
        .filteredOn(reason -> reason.kind().equals("new-starts"))
        .extracting(reason -> reason.packs().doubleValue())
        .containsExactly(1.5);
  }

  private Long past(String ref, MovementReason reason, int packs, int daysAgo, Long loan) {
    Happened then = cupboard.daysAgo(daysAgo, null);
    return entries.enterPacks(
        new PastPacks(
            ref + type.code(),
            type.code(),
            "A",
            null,
            null,
            here,
            packs,
            reason,
            reason == MovementReason.DRAWER_TAKE ? DrawerReason.TRIAL : null,
            null,
            loan,
            loan == null ? null : cupboard.patient(here),
            null,
            then.at()));
  }

  private Long order(int packs, int daysAgo) {
    return supply.order(
        new NewOrder(
            here,
            null,
            cupboard.today(here).minusDays(daysAgo),
            null,
            null,
            List.of(new NewOrder.Line(type.code(), packs, null))),
        cupboard.now());
  }

  private NewDelivery.Line line(String lot, int packs) {
    return new NewDelivery.Line(type.code(), lot, cupboard.today(here).plusDays(400), packs, null);
  }
}
