package clinic.stimshelf.loans;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.nullValue;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** No unit leaves unless everything is in order; what may be owed leaves with a reason. */
@QuarkusTest
class CheckOutTest {
  @Inject LendingScene lending;

  @Test
  void aUnitLeavesWithItsProgramAndItsPads() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String program = lending.signed(scene);
    lending.prepared(scene, program, unit);
    int before = lending.packs(scene);

    LendingScene.post(scene.desk(), "/api/loans", lending.order(scene, program, unit, 2))
        .statusCode(200)
        .body("unitTag", equalTo(unit))
        .body("programId", equalTo(program))
        .body("state", equalTo("out"))
        .body("dueOn", equalTo("2026-04-15"))
        .body("returnedAt", nullValue())
        // Five sets: two packs now, the other three owed on their days.
        .body("owed.collect{it.packs}", equalTo(List.of(1, 1, 1)))
        .body("remindersOn", hasItems("2026-04-08", "2026-04-13", "2026-04-15", "2026-05-15"));

    assertThat(lending.packs(scene)).isEqualTo(before - 2);
    LendingScene.get(scene.desk(), "/api/units/" + unit).body("state", equalTo("on-loan"));
  }

  @Test
  void everythingThatStandsAgainstItIsToldAtOnceWithItsCure() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String program = lending.signed(scene);
    lending.at(LendingScene.TUESDAY.plusDays(7), "10:00");

    LendingScene.post(scene.desk(), "/api/loans", Map.of("programId", program, "unitTag", unit))
        .statusCode(422)
        .body(
            "errors.field",
            hasItems("firstSession", "setting", "charge", "packs", "identifiers", "agreement"))
        .body(
            "errors.message", hasItem(containsString("No first supervised session is on record.")))
        .body("errors.message", hasItem(containsString("charge")));

    LendingScene.get(scene.desk(), "/api/units/" + unit).body("state", equalTo("ready"));
    assertThat(lending.packs(scene)).isEqualTo(100);
  }

  @Test
  void aScreeningThatTurnedStaleKeepsTheUnitHere() {
    LendingScene.Scene scene = lending.open();
    String program = lending.signed(scene);
    lending.at(LendingScene.TUESDAY.plusDays(31), "10:00");
    String unit = lending.unit(scene);
    lending.prepared(scene, program, unit);

    LendingScene.post(scene.desk(), "/api/loans", lending.order(scene, program, unit, 2))
        .statusCode(422)
        .body("errors.field", equalTo(List.of("screening")));
  }

  @Test
  void packsMayBeOwedWithAReasonButNeverAll() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String program = lending.signed(scene);
    lending.prepared(scene, program, unit);

    Map<String, Object> order = lending.order(scene, program, unit, 1);
    LendingScene.post(scene.desk(), "/api/loans", order)
        .statusCode(422)
        .body("errors.field", equalTo(List.of("packsReason")));
    order.put("packs", List.of());
    order.put("packsReason", "none here");
    LendingScene.post(scene.desk(), "/api/loans", order)
        .statusCode(422)
        .body("errors.field", equalTo(List.of("packs")));
    order = lending.order(scene, program, unit, 1);
    order.put("packsReason", "the delivery comes tomorrow");
    LendingScene.post(scene.desk(), "/api/loans", order)
        .statusCode(200)
        .body("owed.findAll{it.dueOn=='2026-03-03'}.packs", equalTo(List.of(1)))
        .body(
            "owed.findAll{it.dueOn=='2026-03-03'}.reason",
            equalTo(List.of("the delivery comes tomorrow")));
  }

  @Test
  void aBagMayBeOwedALeadSetMayNot() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String program = lending.signed(scene);
    lending.prepared(scene, program, unit);
    List<Map<String, Object>> contents =
        LendingScene.get(scene.desk(), "/api/units/" + unit).extract().path("contents");
    String lead = id(contents, "lead set");
    String bag = id(contents, "bag");

    Map<String, Object> order = lending.order(scene, program, unit, 2);
    order.put("leftBehind", List.of(Map.of("kitItemId", lead, "reason", "in repair")));
    LendingScene.post(scene.desk(), "/api/loans", order)
        .statusCode(422)
        .body("errors.field", equalTo(List.of("contents")));
    order.put("leftBehind", List.of(Map.of("kitItemId", bag, "reason", "in the laundry")));
    LendingScene.post(scene.desk(), "/api/loans", order)
        .statusCode(200)
        .body("owed.findAll{it.what=='part'}.owedBy", equalTo(List.of("clinic")))
        .body("owed.findAll{it.what=='part'}.reason", equalTo(List.of("in the laundry")));
  }

  @Test
  void aSafetyTestInsideTheLoanNeedsADayOnWhichTheUnitComesIn() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene, LendingScene.TUESDAY.plusDays(20));
    String program = lending.signed(scene);
    lending.prepared(scene, program, unit);

    Map<String, Object> order = lending.order(scene, program, unit, 2);
    LendingScene.post(scene.desk(), "/api/loans", order)
        .statusCode(422)
        .body("errors.field", equalTo(List.of("bringInOn")));
    order.put("bringInOn", LendingScene.TUESDAY.plusDays(21).toString());
    LendingScene.post(scene.desk(), "/api/loans", order).statusCode(422);
    order.put("bringInOn", LendingScene.TUESDAY.plusDays(14).toString());
    LendingScene.post(scene.desk(), "/api/loans", order)
        .statusCode(200)
        .body("bringInOn", equalTo("2026-03-17"));
  }

  @Test
  void aUnitThatSomebodyElseHasIsRefusedWithWhoAndWhatIsFree() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String other = lending.unit(scene);
    lending.lent(scene, lending.signed(scene), unit);
    String program = lending.signed(scene);
    lending.prepared(scene, program, unit);

    LendingScene.post(scene.desk(), "/api/loans", lending.order(scene, program, unit, 2))
        .statusCode(409)
        .body("detail", containsString("Unit " + unit + " is on loan since"))
        .body("detail", containsString("Free now: " + other));
  }

  @Test
  void oneProgramHasOneUnit() {
    LendingScene.Scene scene = lending.open();
    String program = lending.signed(scene);
    lending.lent(scene, program, lending.unit(scene));
    String second = lending.unit(scene);
    lending.confirmed(scene, program, second);

    LendingScene.post(scene.desk(), "/api/loans", lending.order(scene, program, second, 2))
        .statusCode(422)
        .body("errors[0].message", containsString("A unit is out with this program already."));
  }

  @Test
  void yesterdaysCheckOutIsEnteredWithAReason() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String program = lending.signed(scene);
    lending.prepared(scene, program, unit);
    lending.at(LendingScene.TUESDAY.plusDays(1), "08:10");

    Map<String, Object> order = lending.order(scene, program, unit, 2);
    order.put("happenedAt", "2026-03-03T17:30:00-05:00");
    LendingScene.post(scene.desk(), "/api/loans", order)
        .statusCode(422)
        .body("errors.field", equalTo(List.of("lateReason")));
    order.put("lateReason", "the network was down");
    LendingScene.post(scene.desk(), "/api/loans", order)
        .statusCode(200)
        .body("checkedOutAt", equalTo("2026-03-03T22:30:00Z"));
  }

  private static String id(List<Map<String, Object>> contents, String name) {
    return contents.stream()
        .filter(part -> name.equals(part.get("name")))
        .map(part -> String.valueOf(part.get("id")))
        .findFirst()
        .orElseThrow();
  }
}
