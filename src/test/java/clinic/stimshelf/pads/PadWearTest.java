package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.audit.TrailEntry;
import clinic.stimshelf.calc.Checks;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** How long pads last, from ended sets to what plans count on, and which lot is bad. */
@QuarkusTest
class PadWearTest {
  @Inject Cupboard cupboard;
  @Inject PadSets sets;
  @Inject PadWear wear;
  @Inject PadLots lots;
  @Inject Locations locations;
  @Inject Trail trail;

  private Long here;
  private PadTypeView type;
  private Long patient;
  private int made;

  @BeforeEach
  void ownCupboard() {
    here = cupboard.location();
    type = cupboard.type();
    patient = cupboard.patient(here);
  }

  private void past(Long who, Long lot, int uses, PadOutcome outcome) {
    LocalDate today = cupboard.today(here);
    sets.enterPadSet(
        type.code() + "-" + made++,
        new NewPadSet(who, null, here, type.code(), lot, 4, null, today.minusDays(40)),
        uses,
        0,
        outcome,
        outcome == null ? null : today.minusDays(10),
        cupboard.daysAgo(40, null));
  }

  private Long inUse(int uses) {
    return sets.enterPadSet(
        type.code() + "-" + made++,
        new NewPadSet(
            patient, null, here, type.code(), null, 4, null, cupboard.today(here).minusDays(9)),
        uses,
        0,
        null,
        null,
        cupboard.daysAgo(9, null));
  }

  @Test
  void the_rated_life_counts_until_twenty_sets_are_worn_and_the_switch_leaves_both_numbers() {
    for (int n = 0; n < 19; n++) {
      past(patient, null, 8 + n % 5, PadOutcome.WORN);
    }
    past(patient, null, 30, PadOutcome.LOST);
    past(patient, null, 25, PadOutcome.STILL_GOOD);
    WearView before = wear.of(type.code(), here);

    assertThat(before.own()).isFalse();
    assertThat(before.plannedUses()).isEqualTo(20);
    assertThat(before.worn()).isEqualTo(19);
    assertThat(before.observed()).as("lost and still good are seen, not worn").isEqualTo(21);

    sets.close(inUse(10), PadOutcome.DRIED_OUT, cupboard.today(here), null, cupboard.now());

    WearView after = wear.of(type.code(), here);
    assertThat(after.own()).isTrue();
    assertThat(after.plannedUses()).isBetween(6, 14);
    assertThat(wear.plannedUses(here)).containsEntry(type.code(), after.plannedUses());
    assertThat(after.changes()).hasSize(1);
    assertThat(after.changes().get(0).from()).isEqualTo("20 (rated)");
    assertThat(after.changes().get(0).to()).isEqualTo(after.plannedUses() + " (own sets)");
    TrailEntry told =
        trail.of(Subject.of("pad-type", type.code())).stream()
            .filter(entry -> entry.action().startsWith(PadWear.CHANGED))
            .filter(entry -> entry.action().endsWith(locations.byId(here).code()))
            .findFirst()
            .orElseThrow();
    assertThat(told.before().path("uses").asInt()).isEqualTo(20);
    assertThat(told.after().path("worn").asInt()).isEqualTo(20);
  }

  @Test
  void sets_from_files_leave_a_line_too_and_only_one() {
    for (int n = 0; n < 20; n++) {
      past(patient, null, 8 + n % 5, PadOutcome.WORN);
    }

    wear.tellWhatFilesChanged(cupboard.now());
    wear.tellWhatFilesChanged(cupboard.now());

    WearView after = wear.of(type.code(), here);
    assertThat(after.changes()).hasSize(1);
    assertThat(after.changes().get(0).from()).isEqualTo("20 (rated)");
    assertThat(after.changes().get(0).to()).isEqualTo(after.plannedUses() + " (own sets)");
  }

  /**
   * NIST/SEMATECH e-Handbook 8.4.1.3: ten ended, ten going on at 500; shape 1.7208, scale 606.53
   * (checks/05_weibull_mle.csv, W1). Entered twice over, so that twenty are worn; the maximum stays
   * where it is.
   */
  @Test
  void the_published_fit_comes_out_of_ended_sets() {
    for (int twice = 0; twice < 2; twice++) {
      for (int uses : new int[] {54, 187, 216, 240, 244, 335, 361, 373, 375, 386}) {
        past(patient, null, uses, PadOutcome.WORN);
        past(patient, null, 500, PadOutcome.STILL_GOOD);
      }
    }
    locations.choose(here, Map.of(Setting.PAD_RELIABILITY.key(), "0.9"));

    WearView seen = wear.of(type.code(), here);

    assertThat(seen.shape()).isCloseTo(1.720797260801, within(1e-9));
    assertThat(seen.scale()).isCloseTo(606.5275580036, within(1e-6));
    // 606.5276 (−ln 0.9)^(1/1.720797) = 164.02
    assertThat(seen.plannedUses()).isEqualTo(164);
    assertThat(seen.own()).isTrue();
  }

  /** The lots of checks/06_bad_lot_holm.csv: p-values and Holm's adjustment from R. */
  @Test
  void lots_are_compared_as_the_tables_do() {
    List<Checks.Row> rows = Checks.rows("06_bad_lot_holm.csv");
    for (Checks.Row row : rows) {
      Long lot = cupboard.lot(type, here, "N" + row.text("lot"), 300, 1);
      int early = row.whole("failures");
      int uses = row.whole("uses");
      for (int n = 0; n < early; n++) {
        past(cupboard.patient(here), lot, 0, PadOutcome.WONT_STICK);
      }
      past(patient, lot, uses, PadOutcome.STILL_GOOD);
    }

    WearView seen = wear.of(type.code(), here);

    for (Checks.Row row : rows) {
      WearView.Lot lot =
          seen.lots().stream()
              .filter(one -> one.lot().equals("N" + row.text("lot")))
              .findFirst()
              .orElseThrow();
      assertThat(lot.chance()).isCloseTo(row.number(P_VALUE), within(1e-9));
      assertThat(lot.adjusted()).isCloseTo(row.number(ADJUSTED), within(1e-9));
    }
    assertThat(seen.proposed()).extracting(WearView.Lot::lot).containsExactly("N9");
  }

  private static final String P_VALUE = "p_greater_vs_rest";
  private static final String ADJUSTED = "holm";

  @Test
  void a_bad_lot_is_proposed_only_where_three_patients_are_concerned() {
    Long bad = cupboard.lot(type, here, "BAD", 300, 3);
    Long fine = cupboard.lot(type, here, "FINE", 300, 3);
    List<Long> two = List.of(cupboard.patient(here), cupboard.patient(here));
    for (int n = 0; n < 8; n++) {
      past(two.get(n % 2), bad, 2, PadOutcome.WONT_STICK);
      past(two.get(n % 2), fine, 25, PadOutcome.WORN);
    }
    assertThat(wear.of(type.code(), here).lots().get(0).standsOut()).isTrue();
    assertThat(wear.of(type.code(), here).proposed()).isEmpty();

    past(cupboard.patient(here), bad, 2, PadOutcome.DRIED_OUT);

    assertThat(wear.of(type.code(), here).proposed())
        .extracting(WearView.Lot::lot)
        .containsExactly("BAD");
    lots.quarantine(bad, "ended early", false, cupboard.now());
    assertThat(wear.of(type.code(), here).proposed()).as("it is held back").isEmpty();
  }

  @Test
  void whoever_has_a_bad_lot_is_listed_with_open_sets_and_so_are_the_drawers() {
    Long lot = cupboard.lot(type, here, "LIST", 300, 9);
    sets.open(
        new NewPadSet(patient, null, here, type.code(), lot, 4, null, cupboard.today(here)),
        cupboard.now());
    List<Long> others = new ArrayList<>(List.of(here));

    assertThat(lots.whoHas(lot))
        .extracting(PadHolder::patientId, PadHolder::openSets)
        .containsExactly(org.assertj.core.groups.Tuple.tuple(patient, 1));
    assertThat(lots.inDrawers(lot, others)).isEmpty();
  }

  @Test
  void a_session_counts_on_the_set_that_was_in_use_on_its_day() {
    LocalDate today = cupboard.today(here);
    Long first =
        sets.open(
            new NewPadSet(patient, 4_711L, here, type.code(), null, 4, null, today.minusDays(9)),
            cupboard.now());
    Long second =
        sets.change(first, PadOutcome.WORN, today.minusDays(3), null, null, cupboard.now());

    sets.told(patient, 4_711L, today.minusDays(5), 1, cupboard.now());
    sets.told(patient, 4_711L, today.minusDays(3), 1, cupboard.now());
    sets.told(patient, 4_711L, today, 2, cupboard.now());

    assertThat(sets.byId(first).uses()).isEqualTo(1);
    assertThat(sets.byId(second).uses()).as("changed on that day: the new one").isEqualTo(3);
  }
}
