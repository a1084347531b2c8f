package clinic.stimshelf.program;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

@QuarkusTest
class SessionsAtHomeTest {
  private static final LocalDate START = LocalDate.parse("2026-03-04");

  @Inject Desk desk;

  @BeforeEach
  void onTuesday() {
    desk.at("2026-03-03", "09:00");
  }

  @Test
  void doneAndPartialMissedAndNotLoggedAreToldApartUpToYesterday() {
    Desk.Scene scene = desk.scene();
    String id = scene.signed(scene.body(START));
    desk.at("2026-03-08", "09:00");
    log(scene, id, "2026-03-04", 1, "done", 201);
    log(scene, id, "2026-03-04", 2, "done", 201);
    log(scene, id, "2026-03-05", 1, "partial", 201);
    log(scene, id, "2026-03-05", 2, "not", 201);
    log(scene, id, "2026-03-08", 1, "done", 201);
    scene
        .pt()
        .script()
        .get("/api/programs/" + id + "/sessions")
        .then()
        .statusCode(200)
        .body("adherence.planned", equalTo(8))
        .body("adherence.done", equalTo(2))
        .body("adherence.partial", equalTo(1))
        .body("adherence.missed", equalTo(1))
        .body("adherence.notLogged", equalTo(4))
        .body("adherence.percent", equalTo(25.0f))
        .body("sessions[0].on", equalTo("2026-03-08"))
        .body("sessions.lateReason", hasItem("told later: paper diary"));
  }

  @Test
  void aNumberOfTheDayStandsOnceUntilItIsVoided() {
    Desk.Scene scene = desk.scene();
    String id = scene.signed(scene.body(START));
    desk.at("2026-03-05", "20:00");
    String session = log(scene, id, "2026-03-04", 1, "done", 201).extract().path("id");
    log(scene, id, "2026-03-04", 1, "not", 422).body("errors.field", hasItem("number"));
    scene.post("/api/programs/" + id + "/sessions/" + session + "/void", Map.of()).statusCode(422);
    scene
        .post(
            "/api/programs/" + id + "/sessions/" + session + "/void",
            Map.of("reason", "another patient's diary"))
        .statusCode(200);
    log(scene, id, "2026-03-04", 1, "not", 201);
    scene
        .pt()
        .script()
        .get("/api/programs/" + id + "/sessions")
        .then()
        .body("adherence.done", equalTo(0))
        .body("adherence.missed", equalTo(1));
  }

  @Test
  void whatCannotBeIsRefusedAtOnce() {
    Desk.Scene scene = desk.scene();
    String id = scene.signed(scene.body(START));
    desk.at("2026-03-05", "20:00");
    scene
        .post(
            "/api/programs/" + id + "/sessions",
            Map.of("on", "2026-03-06", "number", 99, "contractions", -1))
        .statusCode(422)
        .body("errors.field", hasItems("on", "number", "contractions", "outcome", "source"));
    scene
        .post(
            "/api/programs/" + id + "/sessions",
            Map.of("on", "2026-03-01", "outcome", "done", "source", "diary"))
        .statusCode(422)
        .body("errors.field", hasItem("on"));
    scene.post("/api/programs/" + id + "/sessions", Map.of("outcome", "maybe")).statusCode(400);
    String draft = scene.drafted(scene.body(START.plusDays(9)));
    scene
        .post("/api/programs/" + draft + "/sessions", Map.of("outcome", "done", "source", "phone"))
        .statusCode(422);
  }

  @Test
  void frontDeskLogsAPhoneCallAndTheNextNumberIsTaken() {
    Desk.Scene scene = desk.scene();
    String id = scene.signed(scene.body(START));
    desk.at("2026-03-04", "20:00");
    Crew.Member frontDesk = desk.member(Roles.FRONT_DESK, Credential.NONE, scene);
    for (int number = 1; number <= 2; number++) {
      Desk.Scene.post(
              frontDesk,
              "/api/programs/" + id + "/sessions",
              Map.of("outcome", "done", "source", "phone"))
          .statusCode(201)
          .body("number", equalTo(number))
          .body("on", equalTo("2026-03-04"))
          .body("lateReason", nullValue());
    }
  }

  @Test
  void twoMissesInARowOrTooFewOfTheLastTwoWeeksAreBehindPlan() {
    assertThat(adherence("done done not not").behind()).isTrue();
    assertThat(adherence("done not done not").behind()).isFalse();
    assertThat(adherence("not not done done").behind()).isFalse();
    assertThat(adherence("not done not done not done not done not done not done").behind())
        .as("6 of 12 known: the interval ends at 0.75")
        .isTrue();
    assertThat(adherence("- - - - -").behind()).as("nothing known is not missed").isFalse();
    assertThat(adherence("- - - - -").daysNotLogged()).isEqualTo(5);
  }

  /** One session a day; a word for each day, the last one yesterday. */
  private static Adherence adherence(String words) {
    String[] days = words.split(" ", -1);
    Program program = new Program();
    ProgramVersion version = new ProgramVersion();
    version.number = 1;
    version.startsOn = START;
    version.weeks = 4;
    version.daysPerWeek = 7;
    version.sessionsPerDay = 1;
    version.signedAt = START.atStartOfDay(Desk.ZONE).toInstant();
    program.versions.add(version);
    java.util.List<Adherence.Known> known = new java.util.ArrayList<>();
    for (int i = 0; i < days.length; i++) {
      if (!days[i].equals("-")) {
        known.add(new Adherence.Known(START.plusDays(i), 1, Outcome.of(days[i])));
      }
    }
    return Adherence.of(
        Planned.of(program, Desk.ZONE), known, START, START.plusDays(days.length - 1L));
  }

  private static io.restassured.response.ValidatableResponse log(
      Desk.Scene scene, String id, String day, int number, String outcome, int status) {
    return scene
        .post(
            "/api/programs/" + id + "/sessions",
            Map.of("on", day, "number", number, "outcome", outcome, "source", "diary"))
        .statusCode(status);
  }
}
