package clinic.stimshelf.loans;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Extension, swap, missing and found, void, mix-up, packs given later, check in. */
@QuarkusTest
class LoanTurnsTest {
  @Inject LendingScene lending;

  @Test
  void anExtensionMovesSessionsPadsDueDayAndMessagesTogether() {
    LendingScene.Scene scene = lending.open();
    String program = lending.signed(scene);
    String loan = lending.lent(scene, program, lending.unit(scene));

    LendingScene.post(
            scene.desk(), "/api/loans/" + loan + "/extension", Map.of("weeks", 2, "reason", "weak"))
        .statusCode(403);
    LendingScene.post(
            scene.pt(), "/api/loans/" + loan + "/extension", Map.of("weeks", 2, "reason", "weak"))
        .statusCode(200)
        .body("dueOn", equalTo("2026-04-29"))
        .body("programVersion", equalTo(2))
        .body("changes.kind", hasItem("extension"))
        .body("remindersOn", hasItem("2026-04-29"))
        // 112 sessions, 20 a set: six sets, two are given.
        .body("owed.collect{it.packs}.sum()", equalTo(4));
    LendingScene.get(scene.pt(), "/api/programs/" + program)
        .body("sessions", equalTo(112))
        .body("lastSessionOn", equalTo("2026-04-28"));
    LendingScene.get(scene.manager(), "/api/trail?subject=loan:" + loan)
        .body("items.action", hasItem("extended"));
  }

  @Test
  void aSwapKeepsTheLoanAndItsDueDayAndTheOldUnitIsInspected() {
    LendingScene.Scene scene = lending.open();
    String program = lending.signed(scene);
    String old = lending.unit(scene);
    String fresh = lending.unit(scene);
    String loan = lending.lent(scene, program, old);

    Map<String, Object> swap =
        Map.of("unitTag", fresh, "trouble", "fault", "reason", "switches itself off");
    LendingScene.post(scene.desk(), "/api/loans/" + loan + "/swap", swap)
        .statusCode(422)
        .body("errors.field", equalTo(List.of("setting")));
    lending.confirmed(scene, program, fresh);
    LendingScene.post(scene.desk(), "/api/loans/" + loan + "/swap", swap)
        .statusCode(200)
        .body("unitTag", equalTo(fresh))
        .body("dueOn", equalTo("2026-04-15"))
        .body("changes.find{it.kind=='swap'}.fromUnit", equalTo(old));
    LendingScene.get(scene.desk(), "/api/units/" + old).body("state", equalTo("to-wipe"));
    LendingScene.get(scene.desk(), "/api/units/" + fresh).body("state", equalTo("on-loan"));
  }

  @Test
  void aMissingUnitComesHomeByCheckIn() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String loan = lending.lent(scene, lending.signed(scene), unit);

    LendingScene.post(scene.desk(), "/api/loans/" + loan + "/missing", Map.of("reason", "moved"))
        .statusCode(200)
        .body("state", equalTo("missing"));
    LendingScene.get(scene.desk(), "/api/units/" + unit).body("state", equalTo("missing"));
    LendingScene.post(scene.desk(), "/api/loans/" + loan + "/return", Map.of())
        .statusCode(200)
        .body("state", equalTo("returned"));
    LendingScene.get(scene.desk(), "/api/units/" + unit).body("state", equalTo("to-wipe"));
  }

  @Test
  void aVoidLoanPutsBackWhatItTook() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String program = lending.signed(scene);
    String loan = lending.lent(scene, program, unit);
    assertThat(lending.packs(scene)).isEqualTo(98);

    LendingScene.post(scene.desk(), "/api/loans/" + loan + "/void", Map.of("reason", " "))
        .statusCode(422);
    LendingScene.post(
            scene.desk(), "/api/loans/" + loan + "/void", Map.of("reason", "wrong person"))
        .statusCode(200)
        .body("state", equalTo("void"));
    assertThat(lending.packs(scene)).isEqualTo(100);
    LendingScene.get(scene.desk(), "/api/units/" + unit).body("state", equalTo("ready"));
    LendingScene.post(scene.desk(), "/api/loans", lending.order(scene, program, unit, 2))
        .statusCode(200);
  }

  @Test
  void aMixUpPutsBothLoansRight() {
    LendingScene.Scene scene = lending.open();
    String first = lending.unit(scene);
    String second = lending.unit(scene);
    String one = lending.lent(scene, lending.signed(scene), first);
    String other = lending.lent(scene, lending.signed(scene), second);

    LendingScene.post(
            scene.desk(),
            "/api/loans/mix-up",
            Map.of("loanId", one, "otherLoanId", other, "reason", "brothers"))
        .statusCode(200);
    LendingScene.get(scene.desk(), "/api/loans/" + one).body("unitTag", equalTo(second));
    LendingScene.get(scene.desk(), "/api/loans/" + other).body("unitTag", equalTo(first));
    LendingScene.post(scene.desk(), "/api/loans/" + one + "/return", Map.of()).statusCode(200);
    LendingScene.get(scene.desk(), "/api/units/" + second).body("state", equalTo("to-wipe"));
    LendingScene.get(scene.desk(), "/api/units/" + first).body("state", equalTo("on-loan"));
  }

  @Test
  void aUnitWrittenOffEndsItsLoanAsLostAndServesAgainWhenItTurnsUp() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String loan = lending.lent(scene, lending.signed(scene), unit);
    LendingScene.post(scene.desk(), "/api/loans/" + loan + "/missing", Map.of("reason", "moved"))
        .statusCode(200);
    LendingScene.post(
            scene.manager(), "/api/units/" + unit + "/retirement", Map.of("reason", "written off"))
        .statusCode(200)
        .body("state", equalTo("retired"));
    LendingScene.get(scene.desk(), "/api/loans/" + loan)
        .body("state", equalTo("lost"))
        .body("returnedAt", org.hamcrest.Matchers.nullValue())
        .body("changes.kind", hasItem("written-off"))
        .body("owed.findAll{it.owedBy=='clinic' && it.settledAt==null}.size()", equalTo(0));
    LendingScene.get(scene.desk(), "/api/loans?location=" + scene.code()).body("total", equalTo(0));
    LendingScene.post(scene.desk(), "/api/loans/" + loan + "/void", Map.of("reason", "no"))
        .statusCode(422);
    assertThat(lastRung(scene, loan)).as("nobody is told anything after that").isNull();
    lending.later(5);
    LendingScene.post(
            scene.manager(),
            "/api/units/" + unit + "/out-of-service",
            Map.of("cause", "other", "reason", "the carrier found it"))
        .statusCode(200);
    LendingScene.post(scene.pt(), "/api/units/" + unit + "/to-inspection", Map.of())
        .statusCode(200);
    lending.inspect(unit);
    LendingScene.get(scene.desk(), "/api/units/" + unit)
        .body("state", equalTo("to-wipe"))
        .body("use", org.hamcrest.Matchers.nullValue());
  }

  @Test
  void aMixUpIsPutRightFromATimeAtWhichBothWereOut() {
    LendingScene.Scene scene = lending.open();
    String first = lending.unit(scene);
    String one = lending.lent(scene, lending.signed(scene), first);
    lending.later(30);
    String second = lending.unit(scene);
    String other = lending.lent(scene, lending.signed(scene), second);
    Map<String, Object> before =
        Map.of(
            "loanId",
            one,
            "otherLoanId",
            other,
            "reason",
            "brothers",
            "since",
            LendingScene.TUESDAY
                .atTime(9, 10)
                .atZone(LendingScene.ZONE)
                .toOffsetDateTime()
                .toString());
    LendingScene.post(scene.desk(), "/api/loans/mix-up", before)
        .statusCode(422)
        .body("errors.field", hasItem("happenedAt"));
    LendingScene.get(scene.desk(), "/api/loans/" + one).body("unitTag", equalTo(first));
  }

  @Test
  void aMixUpShowsWhereAMissingUnitIs() {
    LendingScene.Scene scene = lending.open();
    String first = lending.unit(scene);
    String second = lending.unit(scene);
    String one = lending.lent(scene, lending.signed(scene), first);
    String other = lending.lent(scene, lending.signed(scene), second);
    LendingScene.post(scene.desk(), "/api/loans/" + one + "/missing", Map.of("reason", "not his"))
        .statusCode(200);
    LendingScene.post(
            scene.desk(),
            "/api/loans/mix-up",
            Map.of("loanId", one, "otherLoanId", other, "reason", "brothers"))
        .statusCode(200);
    for (String loan : List.of(one, other)) {
      LendingScene.get(scene.desk(), "/api/loans/" + loan).body("state", equalTo("out"));
    }
    for (String unit : List.of(first, second)) {
      LendingScene.get(scene.desk(), "/api/units/" + unit).body("state", equalTo("on-loan"));
    }
    LendingScene.post(scene.desk(), "/api/loans/" + other + "/return", Map.of())
        .statusCode(200)
        .body("unitTag", equalTo(first));
  }

  @Test
  void aUnitComesBackToTheOtherLocationAndStandsThere() {
    LendingScene.Scene lent = lending.open();
    LendingScene.Scene beside = lending.beside(lent);
    String unit = lending.unit(lent);
    String loan = lending.lent(lent, lending.signed(lent), unit);
    LendingScene.post(
            beside.desk(), "/api/loans/" + loan + "/return", Map.of("location", lent.code()))
        .statusCode(404);
    LendingScene.post(
            beside.desk(), "/api/loans/" + loan + "/return", Map.of("location", beside.code()))
        .statusCode(200)
        .body("returnedTo", equalTo(beside.code()));
    LendingScene.get(beside.desk(), "/api/units/" + unit)
        .statusCode(200)
        .body("state", equalTo("to-wipe"));
    LendingScene.get(beside.desk(), "/api/loans/" + loan).statusCode(404);
  }

  @Test
  void packsOwedAreGivenByLotAndNoMoreThanOwed() {
    LendingScene.Scene scene = lending.open();
    String loan = lending.lent(scene, lending.signed(scene), lending.unit(scene));
    Map<String, Object> four =
        Map.of("packs", List.of(Map.of("lotId", String.valueOf(scene.lot()), "packs", 4)));
    Map<String, Object> two =
        Map.of("packs", List.of(Map.of("lotId", String.valueOf(scene.lot()), "packs", 2)));

    LendingScene.post(scene.desk(), "/api/loans/" + loan + "/packs", four)
        .statusCode(422)
        .body("errors[0].message", containsString("more than the 3 owed"));
    LendingScene.post(scene.desk(), "/api/loans/" + loan + "/packs", two)
        .statusCode(200)
        .body("owed.findAll{it.settledAt==null}.collect{it.packs}.sum()", equalTo(1));
    assertThat(lending.packs(scene)).isEqualTo(96);
  }

  @Test
  void aLeadSetThatDoesNotComeBackIsOwedByThePatient() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String loan = lending.lent(scene, lending.signed(scene), unit);
    List<Map<String, Object>> parts =
        LendingScene.get(scene.desk(), "/api/loans/" + loan).extract().path("parts");
    String lead =
        parts.stream()
            .filter(part -> String.valueOf(part.get("words")).startsWith("lead set"))
            .map(part -> String.valueOf(part.get("id")))
            .findFirst()
            .orElseThrow();

    lending.at(LendingScene.TUESDAY.plusDays(43), "09:30");
    LendingScene.post(
            scene.desk(),
            "/api/loans/" + loan + "/return",
            Map.of("parts", Map.of(lead, "owed"), "useCounter", 83))
        .statusCode(200)
        .body("state", equalTo("returned"))
        .body("owed.findAll{it.settledAt==null}.owedBy", equalTo(List.of("patient")));
    LendingScene.get(scene.desk(), "/api/units/" + unit)
        .body("state", equalTo("to-wipe"))
        .body("contents.find{it.name=='lead set'}.state", equalTo("missing"));
    LendingScene.post(scene.desk(), "/api/loans/" + loan + "/return", Map.of()).statusCode(422);
  }

  @Test
  void somebodyElsesClinicSeesNothing() {
    LendingScene.Scene scene = lending.open();
    LendingScene.Scene elsewhere = lending.open();
    String loan = lending.lent(scene, lending.signed(scene), lending.unit(scene));
    LendingScene.get(elsewhere.desk(), "/api/loans/" + loan).statusCode(404);
    LendingScene.post(elsewhere.desk(), "/api/loans/" + loan + "/return", Map.of()).statusCode(404);
  }

  @Test
  void theSameCallTwiceTakesEffectOnce() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String program = lending.signed(scene);
    lending.prepared(scene, program, unit);
    Map<String, Object> order = lending.order(scene, program, unit, 2);
    String first = keyed(scene, order).statusCode(200).extract().path("id");
    String again = keyed(scene, order).statusCode(200).extract().path("id");
    assertThat(again).isEqualTo(first);
    assertThat(lending.packs(scene)).isEqualTo(98);
    order.put("note", "another body");
    keyed(scene, order).statusCode(422);
  }

  /** The last day on which something is still to be told about a loan, or null. */
  private static String lastRung(LendingScene.Scene scene, String loan) {
    List<String> days =
        LendingScene.get(scene.desk(), "/api/loans/" + loan).extract().path("remindersOn");
    return days.stream()
        .filter(day -> day.compareTo(LendingScene.TUESDAY.toString()) > 0)
        .reduce((first, later) -> later)
        .orElse(null);
  }

  private static io.restassured.response.ValidatableResponse keyed(
      LendingScene.Scene scene, Map<String, Object> order) {
    return scene
        .desk()
        .script()
        .header("Idempotency-Key", "key-of-" + scene.code())
        .contentType(io.restassured.http.ContentType.JSON)
        .body(order)
        .post("/api/loans")
        .then();
  }
}
