package clinic.stimshelf.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;

import clinic.stimshelf.calc.demand.Replay.Day;
import clinic.stimshelf.pads.PadStock;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.MutableClock;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hibernate.SessionFactory;
import org.hibernate.stat.Statistics;
import org.junit.jupiter.api.Test;

/** The past comes from the ledger and is played once more. */
@QuarkusTest
class ReplaysTest {
  private static final LocalDate FIRST = LocalDate.parse("2026-01-05");
  private static final int DAYS = 170;

  @Inject PastClinic past;
  @Inject Replays replays;
  @Inject PadStock stock;
  @Inject MutableClock clock;
  @Inject SessionFactory factory;

  @Test
  @ActivateRequestContext
  void whatHappenedEndsWithWhatTheLedgerHas() {
    PastClinic.Scene scene = steady();
    ReplayView view = replays.one(scene.location(), scene.pad(), null, null).orElseThrow();
    List<Day> days = view.happened().days();
    assertThat(days.get(days.size() - 1).onHand())
        .isEqualTo(stock.position(scene.pad(), scene.location()).onHand());
    assertThat(days.get(days.size() - 1).day()).isEqualTo(FIRST.plusDays(DAYS));
  }

  @Test
  @ActivateRequestContext
  void ourRuleKeepsLessThanACupboardThatWasFilledForYears() {
    PastClinic.Scene scene = steady();
    ReplayView view = replays.one(scene.location(), scene.pad(), null, null).orElseThrow();
    // The scene begins with 200 packs, of which a pack every other day leaves.
    assertThat(view.rule().packsMissing()).isZero();
    assertThat(view.rule().orders()).isZero();
    assertThat(view.realOrders()).isEqualTo(3);
    assertThat(view.rule().averageOnHand()).isLessThan(view.happened().averageOnHand());
    // A level nobody reaches orders nothing either; one above everything orders at once.
    assertThat(
            replays
                .one(scene.location(), scene.pad(), 300L, 50L)
                .orElseThrow()
                .fixed()
                .packsOrdered())
        .isGreaterThanOrEqualTo(150);
  }

  @Test
  @ActivateRequestContext
  void aSecondLookReadsNoHistory() {
    PastClinic.Scene scene = steady();
    replays.all(scene.location());
    Statistics statistics = factory.getStatistics();
    statistics.setStatisticsEnabled(true);
    statistics.clear();
    replays.all(scene.location());
    assertThat(statistics.getPrepareStatementCount()).isLessThanOrEqualTo(6);
    statistics.setStatisticsEnabled(false);
  }

  @Test
  void thePagesCompareAndTakeALevel() {
    PastClinic.Scene scene = steady();
    Crew.Browser browser = Crew.signIn(scene.manager());
    browser
        .get()
        .get("/review/replay")
        .then()
        .statusCode(200)
        .body(
            containsString("Our rule would have run out of nothing"),
            containsString("/review/replay/" + scene.pad()));
    browser
        .get()
        .get("/review/replay/" + scene.pad() + "?level=12&packs=20")
        .then()
        .statusCode(200)
        .body(
            containsString("a fixed level of 12"),
            containsString("cycles without a stock-out"),
            containsString("<polyline class=\"come\""));
    browser
        .get()
        .get("/review/replay/" + scene.pad() + "?level=many")
        .then()
        .statusCode(422)
        .body(containsString("value=\"many\""), containsString("must be a whole number"));
  }

  @Test
  void aClinicWithoutPastIsToldWhatIsNeeded() {
    PastClinic.Scene scene = past.open();
    Crew.Browser browser = Crew.signIn(scene.manager());
    browser
        .get()
        .get("/review/replay")
        .then()
        .statusCode(200)
        .body(containsString("Not enough past to replay yet"));
    browser
        .get()
        .get("/review/replay/" + scene.pad())
        .then()
        .statusCode(200)
        .body(containsString("too little past"));
  }

  /** A pack every other day from the drawer; three deliveries nobody needed. */
  private PastClinic.Scene steady() {
    PastClinic.Scene scene = past.open();
    clock.set(Instant.parse("2026-06-25T14:00:00Z"));
    StringBuilder takes =
        new StringBuilder("ref,location,code,lot,packs,drawer_reason,happened_at\n");
    for (int day = 0; day < DAYS; day += 2) {
      takes.append(
          String.join(
              ",",
              scene.pad() + "-t" + day,
              scene.code(),
              scene.pad(),
              "=1+1",
              "1",
              "trial",
              FIRST.plusDays(day) + "T11:00\n"));
    }
    StringBuilder deliveries =
        new StringBuilder("ref,location,code,lot,expires_on,packs,ordered_on,happened_at\n");
    for (int day : new int[] {90, 120, 150}) {
      deliveries.append(
          String.join(
              ",",
              scene.pad() + "-d" + day,
              scene.code(),
              scene.pad(),
              "N" + day,
              "2028-01-31",
              "30",
              FIRST.plusDays(day - 8).toString(),
              FIRST.plusDays(day) + "T09:00\n"));
    }
    Map<String, String> files = new LinkedHashMap<>();
    files.put("deliveries", deliveries.toString());
    files.put("drawer-takes", takes.toString());
    past.enter(scene, files);
    return scene;
  }
}
