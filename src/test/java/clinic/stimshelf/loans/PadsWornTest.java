package clinic.stimshelf.loans;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.pads.DatedDemand;
import clinic.stimshelf.pads.DatedPacks;
import clinic.stimshelf.pads.PadOutcome;
import clinic.stimshelf.pads.PadSetView;
import clinic.stimshelf.pads.PadSets;
import clinic.stimshelf.program.PadsAhead;
import clinic.stimshelf.testing.Crew;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Pads from the packs handed out to the day they are thrown away, and what that moves. */
@QuarkusTest
class PadsWornTest {
  private static final LocalDate START = LendingScene.TUESDAY.plusDays(1);

  @Inject LendingScene scenes;
  @Inject Crew crew;
  @Inject PadsWorn worn;
  @Inject PadSets sets;
  @Inject PadsAhead ahead;
  @Inject @Any Instance<DatedDemand> demand;

  private LendingScene.Scene scene;
  private String program;
  private Long loan;

  @BeforeEach
  void lend() {
    scene = scenes.open();
    program = scenes.signed(scene);
    loan = Long.valueOf(scenes.lent(scene, program, scenes.unit(scene)));
  }

  private <T> T asDesk(java.util.function.Supplier<T> work) {
    return crew.as(scene.desk().id(), work);
  }

  private PadSetView set() {
    return asDesk(() -> worn.inUse(loan)).get(0);
  }

  private void log(LocalDate day, String outcome) {
    LendingScene.post(
            scene.pt(),
            "/api/programs/" + program + "/sessions",
            Map.of("on", day.toString(), "outcome", outcome, "source", "diary"))
        .statusCode(org.hamcrest.Matchers.oneOf(200, 201));
  }

  private List<DatedPacks> toCome() {
    return asDesk(
        () -> {
          List<DatedPacks> all = new ArrayList<>();
          demand.forEach(
              room ->
                  room.dated(scene.location(), START.minusDays(9), START.plusDays(90)).stream()
                      .filter(packs -> packs.padCode().equals(scene.pad()))
                      .forEach(all::add));
          return all;
        });
  }

  @Test
  void the_first_set_is_taken_as_opened_with_the_first_session_and_says_so() {
    PadSetView set = set();

    assertThat(set.openingAssumed()).isTrue();
    assertThat(set.openedOn()).isEqualTo(START);
    assertThat(set.lot()).isEqualTo("L-1");
    assertThat(set.pads()).isEqualTo(4);
    assertThat(set.usesWords()).isEqualTo("0");
  }

  @Test
  void sessions_nobody_told_of_count_as_expected_and_are_shown_as_such() {
    scenes.at(START.plusDays(5), "10:00");
    log(START, "done");
    log(START, "done");
    log(START.plusDays(1), "not");

    PadSetView set = set();

    // Five days with two sessions: 2 done, 1 known as missed, 7 unknown at the set 0.8.
    assertThat(set.uses()).isEqualTo(2);
    assertThat(set.expectedUses()).isEqualTo(6);
    assertThat(set.usesWords()).isEqualTo("8 (2 told, 6 expected)");
  }

  @Test
  void a_session_told_of_after_the_set_ended_counts_once() {
    scenes.at(START.plusDays(5), "10:00");
    Long ended = set().id();
    asDesk(
        () -> {
          worn.ended(
              loan,
              ended,
              new PadsWorn.Ending(PadOutcome.WORN, START.plusDays(5), null, scene.lot(), true),
              clinic.stimshelf.audit.Happened.at(java.time.Instant.EPOCH.plusSeconds(1)));
          return null;
        });
    PadSetView before = asDesk(() -> sets.byId(ended));
    // Nothing known of five days with two sessions: 10 at 0.8.
    assertThat(before.uses()).isZero();
    assertThat(before.expectedUses()).isEqualTo(8);

    log(START, "done");
    log(START, "done");

    PadSetView after = asDesk(() -> sets.byId(ended));
    assertThat(after.uses()).isEqualTo(2);
    // 8 unknown; six must be known before their share counts instead of 0.8.
    assertThat(after.expectedUses()).as("the two are told of now").isEqualTo(6);
    log(START.plusDays(1), "not");
    log(START.plusDays(1), "not");
    assertThat(asDesk(() -> sets.byId(ended)).expectedUses()).as("6 at 0.8").isEqualTo(5);
  }

  @Test
  void pads_that_fail_early_bring_the_next_opening_and_the_next_pack_forward() {
    scenes.at(START.plusDays(3), "10:00");
    List<PadsAhead.Change> before = asDesk(() -> ahead.next(Long.valueOf(program)));
    List<DatedPacks> planned = toCome();
    asDesk(
        () -> {
          worn.ended(
              loan,
              set().id(),
              new PadsWorn.Ending(
                  PadOutcome.WONT_STICK, START.plusDays(2), null, scene.lot(), true),
              clinic.stimshelf.audit.Happened.at(java.time.Instant.EPOCH.plusSeconds(1)));
          return null;
        });

    List<PadsAhead.Change> after = asDesk(() -> ahead.next(Long.valueOf(program)));
    List<DatedPacks> moved = toCome();

    assertThat(before).hasSize(1);
    assertThat(after.get(0).day()).as("a new set lasts longer").isAfter(before.get(0).day());
    assertThat(moved.stream().mapToInt(DatedPacks::packs).sum())
        .as("one more set is needed in all")
        .isGreaterThanOrEqualTo(planned.stream().mapToInt(DatedPacks::packs).sum());
    assertThat(moved.get(0).on())
        .as("the spare is opened, so the cupboard is asked earlier")
        .isBefore(planned.get(0).on());
  }

  @Test
  void a_loan_that_never_took_place_opened_no_set() {
    LendingScene.post(
            scene.desk(), "/api/loans/" + loan + "/void", Map.of("reason", "wrong patient"))
        .statusCode(200);

    assertThat(asDesk(() -> worn.inUse(loan))).isEmpty();
  }

  @Test
  void the_page_of_the_loan_shows_the_set_and_takes_its_end() {
    scenes.at(START.plusDays(2), "10:00");
    Crew.Browser desk =
        Crew.signIn(
            crew.withPassword(
                clinic.stimshelf.web.Roles.FRONT_DESK,
                clinic.stimshelf.access.Credential.NONE,
                scene.location()));
    PadSetView set = set();
    String page = desk.get().get("/loans/" + loan).then().statusCode(200).extract().asString();
    assertThat(page).contains("taken as opened").contains("Next change expected");

    desk.form()
        .formParam("set-" + set.id() + "-how", "dried-out")
        .formParam("set-" + set.id() + "-next", "true")
        .formParam("set-" + set.id() + "-lot", scene.lot())
        .post("/loans/" + loan + "/pads/" + set.id())
        .then()
        .statusCode(303);

    assertThat(set().id()).isNotEqualTo(set.id());
    assertThat(set().openingAssumed()).isFalse();
  }

  @Test
  void sessions_at_home_count_with_the_unit_that_is_there() {
    scenes.at(START.plusDays(2), "10:00");
    log(START, "done");
    log(START, "partial");
    log(START.plusDays(1), "not");

    Crew.Browser desk =
        Crew.signIn(
            crew.withPassword(
                clinic.stimshelf.web.Roles.FRONT_DESK,
                clinic.stimshelf.access.Credential.NONE,
                scene.location()));
    String tag = LendingScene.get(scene.desk(), "/api/loans/" + loan).extract().path("unitTag");
    assertThat(desk.get().get("/units/" + tag).asString()).contains("sessions done: 2");
  }

  @Test
  void a_bag_bears_chart_number_and_days_and_nobodys_name() {
    Crew.Browser desk =
        Crew.signIn(
            crew.withPassword(
                clinic.stimshelf.web.Roles.FRONT_DESK,
                clinic.stimshelf.access.Credential.NONE,
                scene.location()));
    String chart =
        LendingScene.get(scene.desk(), "/api/loans/" + loan).extract().path("chartNumber");
    for (String symbol : List.of("square", "bars")) {
      String sheet =
          desk.get()
              .get("/loans/" + loan + "/pad-bags/sheet?symbol=" + symbol)
              .then()
              .statusCode(200)
              .extract()
              .asString();
      assertThat(sheet)
          .contains(chart)
          .contains("lot L-1")
          .contains("opened " + START)
          .contains("not after " + START.plusDays(29))
          .doesNotContain("uadriceps");
    }
  }
}
