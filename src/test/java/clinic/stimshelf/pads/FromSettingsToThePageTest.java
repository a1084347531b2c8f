package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.calc.Checks;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import org.hibernate.SessionFactory;
import org.hibernate.stat.Statistics;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * The whole path: settings of a location and lines of its ledger in, the number on the page out.
 * Values from outside: checks/02_discrete_reorder_points.csv (Poisson; mean 10 is the base stock
 * example of Hopp and Spearman, Factory Physics 3e, 2.4.2: G(13) = 0.864464, G(14) = 0.916542) and
 * 08_random_lead_time.csv.
 */
@QuarkusTest
class FromSettingsToThePageTest {
  @Inject Crew crew;
  @Inject Cupboard cupboard;
  @Inject PadEntries entries;
  @Inject Supply supply;
  @Inject Reorders reorders;
  @Inject Transfers transfers;
  @Inject StockKeeping keeping;
  @Inject Locations locations;
  @Inject SessionFactory factory;

  private Long here;
  private PadTypeView type;

  @BeforeEach
  void ownCupboard() {
    here = crew.location(Crew.unique("PATH"));
    type = cupboard.type();
    cupboard.lot(type, here, "A", 600, 400);
    past("opening", MovementReason.OPENING, 400, 300);
  }

  private void past(String ref, MovementReason reason, int packs, int daysAgo) {
    entries.enterPacks(
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
            null,
            null,
            null,
            cupboard.daysAgo(daysAgo, null).at()));
  }

  private void choose(Setting setting, String value) {
    locations.choose(here, Map.of(setting.key(), value));
  }

  @Test
  void single_packs_from_the_drawer_show_the_published_base_stock_on_the_page() {
    // Seven days set until delivery and one until the next look, of 56 days with 70 takes: 10.
    choose(Setting.REVIEW_DAYS, "1");
    for (int n = 0; n < 70; n++) {
      past("take " + n, MovementReason.DRAWER_TAKE, 1, n == 0 ? 56 : 1 + n % 55);
    }
    Crew.Member manager = crew.withPassword(Roles.MANAGER, Credential.NONE, here);
    Crew.Browser browser = Crew.signIn(manager);
    for (Checks.Row row :
        Checks.rows("02_discrete_reorder_points.csv").stream()
            .filter(one -> one.text("distribution").equals("poisson"))
            .filter(one -> one.number("mean") == 10)
            .toList()) {
      choose(Setting.SERVICE_LEVEL, row.text("service_P1"));
      int level = row.whole(LEVEL);
      manager
          .script()
          .get("/api/pads/" + type.code() + "/reorder")
          .then()
          .statusCode(200)
          .body("reorderPoint", equalTo(level));
      browser
          .get()
          .get("/pads/" + type.code())
          .then()
          .statusCode(200)
          .body(containsString("Why the order level is " + level + " packs"));
    }
  }

  private static final String LEVEL = "min_s_with_cdf_ge_P1";

  @Test
  void deliveries_that_took_their_time_show_the_mixed_level() {
    Checks.Row row = Checks.rows("08_random_lead_time.csv").get(0);
    choose(Setting.REVIEW_DAYS, "1");
    // 2, 3, 4 and 6 days with 0.2, 0.5, 0.2 and 0.1, one of them until the next look.
    for (int days : new int[] {1, 1, 2, 2, 2, 2, 2, 3, 3, 5}) {
      Long order =
          supply.order(
              new NewOrder(
                  here,
                  null,
                  cupboard.today(here).minusDays(days + 1L),
                  null,
                  null,
                  List.of(new NewOrder.Line(type.code(), 1, null))),
              cupboard.now());
      supply.receive(
          new NewDelivery(
              here,
              order,
              null,
              List.of(
                  new NewDelivery.Line(
                      type.code(), "A", cupboard.today(here).plusDays(600), 1, null))),
          cupboard.daysAgo(1, "paper note"));
    }
    // 1.3 a day: 130 takes in 100 days.
    for (int n = 0; n < 130; n++) {
      past("take " + n, MovementReason.DRAWER_TAKE, 1, n == 0 ? 100 : 1 + n % 99);
    }
    choose(Setting.SERVICE_LEVEL, "0.95");

    ReorderView answer = reorders.reorder(type.code(), here);

    assertThat(answer.leadDaysSeen()).isEqualTo(10);
    assertThat(answer.reorderPoint()).isEqualTo((long) row.number("q95"));
  }

  @Test
  void the_questions_to_the_database_do_not_grow_with_history_and_the_past_is_read_once() {
    for (int n = 0; n < 5; n++) {
      past("few " + n, MovementReason.DRAWER_TAKE, 1, 1 + n);
    }
    reorders.all(here);
    long few = asked(() -> reorders.all(here));
    for (int n = 0; n < 60; n++) {
      past("many " + n, MovementReason.DRAWER_TAKE, 1, 1 + n);
    }
    long afterChange = asked(() -> reorders.all(here));
    long again = asked(() -> reorders.all(here));

    assertThat(again).as("as many questions however much happened").isEqualTo(few);
    assertThat(again).as("the past is not read again").isLessThan(afterChange);
    assertThat(again).isLessThan(30);
  }

  private long asked(Runnable work) {
    Statistics statistics = factory.getStatistics();
    statistics.setStatisticsEnabled(true);
    statistics.clear();
    work.run();
    long count = statistics.getPrepareStatementCount();
    statistics.setStatisticsEnabled(false);
    return count;
  }

  @Test
  void packs_another_location_has_too_many_of_are_proposed_before_an_order() {
    String code = Crew.unique("POOR");
    Long poor = crew.location(code);
    // The poor one uses one a day and has nothing; here lie 800 and little is used.
    past("little", MovementReason.DRAWER_TAKE, 1, 20);
    keeping.transfer(
        here,
        poor,
        List.of(new PackLine(cupboard.lotId(type, "A"), 30, null)),
        null,
        cupboard.now());
    for (int n = 1; n <= 30; n++) {
      entries.enterPacks(
          new PastPacks(
              "poor " + n + type.code(),
              type.code(),
              "A",
              null,
              null,
              poor,
              1,
              MovementReason.DRAWER_TAKE,
              DrawerReason.TRIAL,
              null,
              null,
              null,
              null,
              cupboard.now().at()));
    }
    List<Reorders.Both> ours =
        reorders.all(poor).stream()
            .filter(both -> both.position().code().equals(type.code()))
            .toList();
    assertThat(ours.get(0).answer().orderQuantity()).isPositive();

    List<Transfers.Proposal> moves =
        transfers.into(poor, ours, List.of(here, poor)).get(type.code());

    assertThat(moves).hasSize(1);
    assertThat(moves.get(0).enough()).isTrue();
    assertThat(moves.get(0).packs())
        .as("up to just above the order level")
        .isEqualTo((int) ours.get(0).answer().reorderPoint() + 1);
    crew.member(Roles.MANAGER, Credential.NONE, poor, here)
        .script()
        .get("/api/pads/" + type.code() + "/transfers?location=" + code)
        .then()
        .statusCode(200)
        .body("[0].packs", equalTo(moves.get(0).packs()))
        .body("[0].why", containsString("above its order level"));
  }
}
