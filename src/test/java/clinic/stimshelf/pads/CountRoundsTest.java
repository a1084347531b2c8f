package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.endsWith;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.List;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A count that goes on while packs leave, and the drawers it finds. */
@QuarkusTest
class CountRoundsTest {
  @Inject Crew crew;
  @Inject Cupboard cupboard;
  @Inject CountRounds rounds;
  @Inject TreatmentDrawers drawers;
  @Inject PadStock stock;

  private Long here;
  private PadTypeView type;

  @BeforeEach
  void ownCupboard() {
    here = crew.location(Crew.unique("COUNT"));
    type = cupboard.type();
  }

  private void take(Long lot, int packs) {
    stock.drawerTake(
        new DrawerTake(lot, null, here, packs, DrawerReason.TRIAL, null, null, "count"),
        cupboard.now());
  }

  /**
   * Two spots hold a lot; before, between and after the counting of the spots packs leave from
   * either. Whatever the order, nothing is booked as lost.
   */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void what_leaves_while_the_count_goes_on_is_no_difference(long seed) {
    RandomGenerator chance = RandomGeneratorFactory.of("L64X128MixRandom").create(seed);
    int[] lies = {6, 5};
    Long lot = cupboard.lot(type, here, "L", 300, 11);
    Long round = rounds.start(here);
    for (int spot = 0; spot < 2; spot++) {
      leave(chance, lies, lot);
      rounds.found(round, "spot " + spot, lot, lies[spot]);
    }
    leave(chance, lies, lot);

    CountRounds.Result result = rounds.close(round, true, null, cupboard.now());

    assertThat(result.corrected()).isZero();
    assertThat(cupboard.packs(lot, here)).isEqualTo(lies[0] + lies[1]);
    assertThat(cupboard.ledger(type)).isEqualTo(cupboard.balances(type));
  }

  private void leave(RandomGenerator chance, int[] lies, Long lot) {
    int spot = chance.nextInt(2);
    int packs = chance.nextInt(3);
    if (packs > 0 && lies[spot] >= packs) {
      lies[spot] -= packs;
      take(lot, packs);
    }
  }

  @Test
  void what_is_missing_beyond_that_needs_a_reason_and_is_corrected_to_the_nearest_that_fits() {
    Long lot = cupboard.lot(type, here, "L", 300, 10);
    Long round = rounds.start(here);
    take(lot, 2);
    rounds.found(round, "shelf", lot, 5);

    assertThatThrownBy(() -> rounds.close(round, false, null, cupboard.now()))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("8 to 10 packs");
    CountRounds.Result result = rounds.close(round, false, "torn bags", cupboard.now());

    assertThat(result.corrected()).isEqualTo(1);
    assertThat(cupboard.packs(lot, here)).as("three fewer than the 8 that fit").isEqualTo(5);
    assertThat(cupboard.ledger(lot, here)).isEqualTo(5);
  }

  @Test
  void a_lot_that_was_not_found_counts_as_gone_only_if_every_spot_was_counted() {
    Long found = cupboard.lot(type, here, "F", 300, 3);
    Long unseen = cupboard.lot(type, here, "U", 300, 4);
    Long round = rounds.start(here);
    rounds.found(round, "shelf", found, 3);
    assertThat(rounds.byId(round).notYet()).extracting(LotFactsView::number).contains("U");
    rounds.close(round, false, null, cupboard.now());
    assertThat(cupboard.packs(unseen, here)).isEqualTo(4);

    Long again = rounds.start(here);
    rounds.found(again, "shelf", found, 3);
    rounds.close(again, true, "nowhere", cupboard.now());
    assertThat(cupboard.packs(unseen, here)).isZero();
  }

  @Test
  void the_page_counts_with_the_scanner_and_shows_no_ledger_before() {
    Long lot = cupboard.lot(type, here, "PAGE" + type.code(), 300, 7);
    Crew.Browser desk = Crew.signIn(crew.withPassword(Roles.FRONT_DESK, Credential.NONE, here));
    String page =
        desk.form().post("/pads/counts").then().statusCode(303).extract().header("Location");
    page = page.substring(page.indexOf("/pads/counts"));
    for (int n = 0; n < 6; n++) {
      desk.form()
          .formParam("spot", "cupboard")
          .formParam("scan", "PAGE" + type.code())
          .formParam("packs", "1")
          .post(page + "/found")
          .then()
          .statusCode(303);
    }
    desk.get().get(page).then().statusCode(200).body(containsString("value=\"6\""));
    desk.form()
        .post(page + "/end")
        .then()
        .statusCode(422)
        .body(containsString("the ledger has 7 packs, counted were 6"));
    desk.form()
        .formParam("reason", "one was torn")
        .post(page + "/end")
        .then()
        .statusCode(303)
        .header("Location", endsWith("lots=1&differences=1&moved=0"));
    assertThat(cupboard.packs(lot, here)).isEqualTo(6);
  }

  @Test
  void a_drawer_says_what_to_bring_and_never_more_than_the_cupboard_has() {
    Long lot = cupboard.lot(type, here, "D", 300, 5);
    drawers.level(here, "table 2", type.code(), 4);
    TreatmentDrawers.DrawerView drawer = drawers.at(here).get(0);
    assertThat(drawer.missing()).isEqualTo(4);

    drawers.filled(drawer.id(), here);
    assertThat(drawers.at(here).get(0).missing()).isZero();
    stock.drawerTake(
        new DrawerTake(lot, null, here, 3, DrawerReason.TREATMENT, null, null, null, drawer.id()),
        cupboard.now());
    assertThat(drawers.at(here).get(0).missing()).isEqualTo(3);
    assertThat(cupboard.ledger(type))
        .as("filling moves nothing")
        .isEqualTo(cupboard.balances(type));

    drawers.level(here, "table 3", type.code(), 9);
    Long other = drawers.at(here).get(1).id();
    assertThatThrownBy(() -> drawers.filled(other, here))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Only 1 pack ");
    assertThat(List.of(drawers.at(here).get(0).packs())).containsExactly(1);
  }
}
