package clinic.stimshelf.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.testing.Crew;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.hibernate.SessionFactory;
import org.hibernate.stat.Statistics;
import org.junit.jupiter.api.Test;

/** From files through the ledger to the numbers that a manager reads. */
@QuarkusTest
class ConsumptionTest {
  private static final String QUARTER = "from=2026-01-01&to=2026-03-31";

  @Inject PastClinic past;
  @Inject Consumption consumption;
  @Inject SessionFactory factory;

  /** The program that {@code SplitTest} works by hand: 84 planned, 60 done, 5 packs, half lost. */
  @Test
  void aProgramsPacksAreSplitIntoCausesThatAddUp() {
    PastClinic.Scene scene = past.open();
    past.program(scene, 5, 60);
    scene
        .manager()
        .script()
        .get("/api/consumption?" + QUARTER + "&location=" + scene.code())
        .then()
        .statusCode(200)
        .body("planPacks", equalTo(4.2f))
        .body("actualPacks", equalTo(5.0f))
        .body("differencePacks", equalTo(0.8f))
        .body("planCost", equalTo("31.50"))
        .body("actualCost", equalTo("40.00"))
        .body("differenceCost", equalTo("8.50"))
        .body("parts.cause", equalTo(List.of("sessions", "wear", "waste", "price")))
        .body("parts.packs", equalTo(List.of(-1.2f, 1.5f, 0.5f, 0)))
        .body("parts.cost", equalTo(List.of("-9.00", "11.25", "3.75", "2.50")))
        .body("sessionsPlanned", equalTo(84))
        .body("sessionsDone", equalTo(60))
        .body("sessionsWithoutEntry", equalTo(24))
        .body("programsCompleted", equalTo(1))
        .body("costPerCompletedProgram", equalTo("40.00"))
        .body("drawer", equalTo(List.of()));
  }

  @Test
  void whoAndWhatAddUpToTheSameTotal() {
    PastClinic.Scene scene = past.open();
    past.program(scene, 5, 60);
    past.program(scene, 3, 31);
    past.program(scene, 7, 84);
    JsonPath answer =
        scene.manager().script().get("/api/consumption?" + QUARTER).then().extract().jsonPath();
    for (String by : List.of("therapist", "template", "pads", "lot", "location")) {
      List<Map<String, Object>> rows = answer.getList("by.find { it.by == '" + by + "' }.rows");
      assertThat(rows).as(by).isNotEmpty();
      assertThat(sum(rows, "planCost")).as(by).isEqualByComparingTo(answer.getString("planCost"));
      assertThat(sum(rows, "actualCost"))
          .as(by)
          .isEqualByComparingTo(answer.getString("actualCost"));
    }
  }

  @Test
  void drawerTakesStandBesideAndNotInThePlan() {
    PastClinic.Scene scene = past.open();
    past.enter(
        scene,
        Map.of(
            "drawer-takes",
            "ref,location,code,lot,packs,drawer_reason,happened_at\n"
                + String.join(
                    ",",
                    scene.pad() + "-t",
                    scene.code(),
                    scene.pad(),
                    "=1+1",
                    "3",
                    "wont-stick",
                    "2026-02-02T11:00\n")));
    scene
        .manager()
        .script()
        .get("/api/consumption?" + QUARTER)
        .then()
        .body("actualPacks", equalTo(0.0f))
        .body("drawer[0].reason", equalTo("wont-stick"))
        .body("drawer[0].packs", equalTo(3))
        .body("drawer[0].cost", equalTo("24.00"))
        .body("costPerCompletedProgram", nullValue());
  }

  @Test
  void aChangedListPriceLeavesThePastAlone() {
    PastClinic.Scene scene = past.open();
    past.program(scene, 5, 60);
    scene
        .manager()
        .script()
        .contentType("application/json")
        .body(
            Map.of(
                "name",
                "Oblong",
                "shape",
                "rectangle",
                "widthMm",
                50,
                "heightMm",
                90,
                "connector",
                "snap",
                "padsPerPack",
                4,
                "ratedUses",
                20,
                "price",
                99))
        .put("/api/pads/" + scene.pad())
        .then()
        .statusCode(200);
    scene
        .manager()
        .script()
        .get("/api/consumption?" + QUARTER)
        .then()
        .body("planCost", equalTo("31.50"));
  }

  @Test
  void anEarlierPeriodTakesThePlaceOfThePlan() {
    PastClinic.Scene scene = past.open();
    past.program(scene, 5, 84);
    JsonPath answer =
        scene
            .manager()
            .script()
            .get("/api/consumption?from=2026-02-01&to=2026-02-28&against=before")
            .then()
            .statusCode(200)
            .body("against", equalTo("before"))
            .body("againstFrom", equalTo("2026-01-01"))
            .body("againstTo", equalTo("2026-01-31"))
            .body("planPacks", equalTo(5.0f))
            .body("actualPacks", equalTo(0.0f))
            .extract()
            .jsonPath();
    assertThat(sum(answer.getList("parts"), "cost"))
        .isEqualByComparingTo(answer.getString("differenceCost"));
    assertThat(answer.getString("differenceCost")).isEqualTo("-40.00");
  }

  @Test
  void daysThatMakeNoPeriodAreNamed() {
    PastClinic.Scene scene = past.open();
    scene
        .manager()
        .script()
        .get("/api/consumption?from=2026-01-01&to=soon")
        .then()
        .statusCode(400)
        .body("errors[0].field", equalTo("to"));
    scene
        .manager()
        .script()
        .get("/api/consumption?from=2026-03-01&to=2026-01-01")
        .then()
        .statusCode(422)
        .body("errors.field", hasItem("to"));
  }

  @Test
  void thePageSaysWhereItWentAndWhy() {
    PastClinic.Scene scene = past.open();
    past.program(scene, 5, 60);
    Crew.Browser browser = Crew.signIn(scene.manager());
    browser
        .get()
        .get("/review")
        .then()
        .statusCode(200)
        .body(
            containsString("Programs used packs for $40.00, $8.50 more than planned"),
            containsString("What weighed most: wear, +$11.25."),
            containsString("60 of 84 planned sessions done"),
            containsString("13.3 sessions a set instead of 20"),
            containsString("role=\"img\" aria-label=\"From 31.50 planned, sessions −9.00"));
    browser
        .get()
        .get("/review?span=days&from=2026-03-01&to=2026-01-01")
        .then()
        .statusCode(422)
        .body(containsString("value=\"2026-03-01\""), containsString("lies before the first"));
    browser
        .get()
        .get("/review/print")
        .then()
        .statusCode(200)
        .body(containsString("class=\"paper\""), not(containsString("Ines Fairbrook")));
  }

  @Test
  void anEmptyClinicIsToldWhatWillStandHere() {
    PastClinic.Scene scene = past.open();
    Crew.signIn(scene.manager())
        .get()
        .get("/review")
        .then()
        .statusCode(200)
        .body(
            containsString("No packs were planned or used in these days"),
            containsString("Once packs are given out"));
  }

  @Test
  void theFileHoldsNoLiveFormulaAndNoPatient() {
    PastClinic.Scene scene = past.open();
    past.program(scene, 5, 60);
    String file =
        Crew.signIn(scene.manager())
            .get()
            .get("/review/consumption.csv?span=quarter")
            .then()
            .statusCode(200)
            .extract()
            .asString();
    assertThat(file)
        .contains("total,,,2026-01-01,2026-03-31,plan,60,4.20,-1.20,1.50,0.50,5.00,31.50,-9.00")
        .contains("lot,'=1+1,")
        .doesNotContain("Fairbrook");
  }

  @Test
  @ActivateRequestContext
  void tenProgramsAskTheDatabaseAsOftenAsTwo() {
    PastClinic.Scene scene = past.open();
    past.program(scene, 5, 4);
    past.program(scene, 5, 4);
    long few = asked(scene);
    for (int i = 0; i < 8; i++) {
      past.program(scene, 2, 3);
    }
    assertThat(asked(scene)).isEqualTo(few).isLessThan(40);
  }

  private long asked(PastClinic.Scene scene) {
    Statistics statistics = factory.getStatistics();
    statistics.setStatisticsEnabled(true);
    statistics.clear();
    consumption.of(
        List.of(scene.location()),
        new Period(LocalDate.parse("2026-01-01"), LocalDate.parse("2026-03-31")),
        Against.PLAN);
    long count = statistics.getPrepareStatementCount();
    statistics.setStatisticsEnabled(false);
    return count;
  }

  private static BigDecimal sum(List<Map<String, Object>> rows, String field) {
    return rows.stream()
        .map(row -> new BigDecimal(row.get(field).toString()))
        .reduce(BigDecimal.ZERO, BigDecimal::add);
  }
}
