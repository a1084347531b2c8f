package clinic.stimshelf.loans;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.testing.Crew;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** A patient who has a unit at home is treated in the clinic. */
@QuarkusTest
class TreatedWithAUnitOnLoanTest {
  /** A Thursday, while the loan runs. */
  private static final LocalDate DAY = LocalDate.of(2026, 3, 5);

  @Inject LendingScene lending;
  @Inject Locations locations;

  @Test
  void theOwnUnitCountsAsBroughtUntilItIsForgottenAndTheTreatmentIsOneSessionMore() {
    LendingScene.Scene scene = lending.open();
    String program = lending.signed(scene);
    String own = lending.unit(scene);
    lending.lent(scene, program, own);
    lending.at(DAY, "08:00");
    String spare = lending.unit(scene);
    String visit = booked(scene, program, "2026-03-05T10:00:00-05:00");
    plan(scene, visit, own, "brought");
    LendingScene.post(
            scene.desk(),
            "/api/appointments/" + visit + "/forgotten-unit",
            Map.of("forgotten", true))
        .statusCode(200)
        .body("unitTag", equalTo(spare))
        .body("loanedUnitForgotten", equalTo(true));
    plan(scene, visit, spare, "planned");
    int packs = lending.packs(scene);
    lending.at(DAY, "10:05");
    LendingScene.post(
            scene.desk(), "/api/appointments/" + visit + "/arrival", Map.of("unitTag", spare))
        .statusCode(200);
    lending.at(DAY, "10:40");
    LendingScene.post(
            scene.desk(),
            "/api/appointments/" + visit + "/completion",
            Map.of("outcome", "done", "packs", List.of(Map.of("code", scene.pad(), "packs", 1))))
        .statusCode(200);
    LendingScene.get(scene.pt(), "/api/programs/" + program + "/sessions")
        .statusCode(200)
        .body("sessions", hasSize(1))
        .body("sessions[0].outcome", equalTo("done"))
        .body("sessions[0].source", equalTo("clinic"));
    org.assertj.core.api.Assertions.assertThat(lending.packs(scene)).isEqualTo(packs - 1);
  }

  @Test
  void whereTheLocationSaysSoTheTreatmentReplacesAHomeSession() {
    LendingScene.Scene scene = lending.open();
    String program = lending.signed(scene);
    lending.lent(scene, program, lending.unit(scene));
    lending.at(DAY, "10:00");
    String extra = booked(scene, program, "2026-03-05T10:00:00-05:00");
    complete(scene, extra);
    int more = number(scene, program);
    locations.choose(
        scene.location(), new HashMap<>(Map.of("treatment-replaces-home-session", "yes")));
    String instead = booked(scene, program, "2026-03-05T11:00:00-05:00");
    lending.at(DAY, "11:30");
    complete(scene, instead);
    LendingScene.get(scene.pt(), "/api/programs/" + program + "/sessions")
        .body("sessions", hasSize(2))
        .body("sessions.number.min()", equalTo(1))
        .body("sessions.number.max()", equalTo(more));
    org.assertj.core.api.Assertions.assertThat(more).as("beyond those planned").isGreaterThan(1);
  }

  private static int number(LendingScene.Scene scene, String program) {
    return LendingScene.get(scene.pt(), "/api/programs/" + program + "/sessions")
        .extract()
        .path("sessions[0].number");
  }

  private static void complete(LendingScene.Scene scene, String visit) {
    LendingScene.post(
            scene.desk(), "/api/appointments/" + visit + "/completion", Map.of("outcome", "done"))
        .statusCode(200);
  }

  private static String booked(LendingScene.Scene scene, String program, String start) {
    String patient =
        LendingScene.get(scene.pt(), "/api/programs/" + program).extract().path("patientId");
    return LendingScene.post(
            scene.desk(),
            "/api/appointments",
            Map.of(
                "location",
                scene.code(),
                "patientId",
                patient,
                "startsAt",
                start,
                "endsAt",
                start.replace(":00:00-", ":40:00-"),
                "channels",
                2))
        .statusCode(201)
        .extract()
        .path("id");
  }

  private static void plan(LendingScene.Scene scene, String visit, String unit, String how) {
    Crew.Member desk = scene.desk();
    LendingScene.get(desk, "/api/unit-plan?date=" + DAY)
        .statusCode(200)
        .body("assignments", hasSize(1))
        .body("assignments[0].treatmentId", equalTo(visit))
        .body("assignments[0].unitTag", equalTo(unit))
        .body("assignments[0].how", equalTo(how))
        .body("unserved", hasSize(0));
  }
}
