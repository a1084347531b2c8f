package clinic.stimshelf.program;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.notNullValue;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.location.ClosureView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.DatedPacks;
import clinic.stimshelf.shelf.ShelfScene;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

@QuarkusTest
class ChangingARunningProgramTest {
  private static final LocalDate START = LocalDate.parse("2026-03-04");

  @Inject Desk desk;
  @Inject Programs programs;
  @Inject PacksToCome packsToCome;
  @Inject Locations locations;
  @Inject ShelfScene shelf;
  @Inject Crew crew;

  @BeforeEach
  void onTuesday() {
    desk.at("2026-03-03", "09:00");
  }

  /** The clocks change on March 8 and the last session falls on a day between closed ones. */
  @Test
  void theDueDayFollowsTheAppointmentsAcrossTheClockChange() {
    Desk.Scene scene = desk.scene();
    Long last = desk.book(scene, "2026-03-04", "2026-03-18", "2026-04-10", "2026-04-17");
    Map<String, Object> body = scene.body(START);
    body.put("dueKind", "first-appointment-after-last-session");
    String id = scene.signed(body);
    scene
        .get(id)
        .body("lastSessionOn", equalTo("2026-04-14"))
        .body("dueOn", equalTo("2026-04-17"))
        .body("nextAppointmentOn", equalTo("2026-03-18"))
        .body("packsNow", equalTo(3))
        .body("dueChoices.on", equalTo(List.of("2026-04-10", "2026-04-17", "2026-04-15")))
        .body("dueChoices[0].sessionsLost", equalTo(8));
    desk.cancel(scene, last);
    scene.get(id).body("dueOn", equalTo("2026-04-15"));
  }

  @Test
  void aDayClosedLaterMovesTheDueDay() {
    Desk.Scene scene = desk.scene();
    String id = scene.signed(scene.body(START));
    scene.get(id).body("dueOn", equalTo("2026-04-15"));
    desk.at("2026-04-15", "06:40");
    crew.as(
        scene.pt().id(),
        () -> {
          locations.close(
              scene.location(), new ClosureView(LocalDate.parse("2026-04-15"), null, null, "Snow"));
          return null;
        });
    scene.get(id).body("dueOn", equalTo("2026-04-16"));
    crew.as(
        scene.pt().id(),
        () -> {
          locations.reopen(scene.location(), LocalDate.parse("2026-04-15"));
          return null;
        });
    scene.get(id).body("dueOn", equalTo("2026-04-15"));
  }

  @Test
  void anExtensionStandsBesideTheVersionInForceUntilItIsSigned() {
    Desk.Scene scene = desk.scene();
    String id = scene.signed(scene.body(START));
    String tag = shelf.newUnit(scene.location(), shelf.kind(2));
    scene
        .post("/api/programs/" + id + "/setting", Map.of("unitTag", tag))
        .statusCode(200)
        .body("settingConfirmed", equalTo(true));
    desk.at("2026-03-20", "10:00");
    Map<String, Object> longer = scene.body(START);
    longer.put("weeks", 8);
    put(scene, id, longer).statusCode(422).body("errors.field", hasItem("reason"));
    longer.put("reason", "still weak");
    put(scene, id, longer).statusCode(200).body("versionState", equalTo("draft"));
    assertThat(programs.signed(Long.valueOf(id)).orElseThrow().lastSessionOn())
        .isEqualTo("2026-04-14");
    scene
        .post("/api/programs/" + id + "/signature", Map.of("reviewed", true))
        .statusCode(200)
        .body("signedVersion", equalTo(2))
        .body("sessions", equalTo(112))
        .body("lastSessionOn", equalTo("2026-04-28"))
        .body("dueOn", equalTo("2026-04-29"))
        .body("settingConfirmed", equalTo(false))
        .body("versions.state", equalTo(List.of("replaced", "signed")));
    assertThat(programs.signed(Long.valueOf(id)).orElseThrow().dueOn()).isEqualTo("2026-04-29");
  }

  @Test
  void aPauseMovesSessionsPadsAndDueDayAndEndsEarlyWhereThePatientIsBack() {
    Desk.Scene scene = desk.scene();
    String id = scene.signed(scene.body(START));
    desk.at("2026-03-10", "10:00");
    scene
        .post(
            "/api/programs/" + id + "/pause",
            Map.of("from", "2026-03-12", "to", "2026-03-18", "reason", "travels"))
        .statusCode(200)
        .body("lastSessionOn", equalTo("2026-04-21"))
        .body("dueOn", equalTo("2026-04-22"))
        .body("padChanges[0]", equalTo("2026-03-21"));
    scene
        .post(
            "/api/programs/" + id + "/pause",
            Map.of("from", "2026-03-17", "to", "2026-03-19", "reason", ""))
        .statusCode(422)
        .body("errors.field", hasItems("reason", "from"));
    desk.at("2026-03-13", "10:00");
    scene.get(id).body("state", equalTo("paused"));
    scene
        .post("/api/programs/" + id + "/resume", Map.of("from", "2026-03-15"))
        .statusCode(200)
        .body("lastSessionOn", equalTo("2026-04-17"))
        .body("pauses[0].to", equalTo("2026-03-14"));
  }

  @Test
  void aStoppedProgramIsChangedNoMore() {
    Desk.Scene scene = desk.scene();
    String id = scene.signed(scene.body(START));
    scene.post("/api/programs/" + id + "/stop", Map.of()).statusCode(422);
    scene
        .post("/api/programs/" + id + "/stop", Map.of("reason", "goal reached"))
        .statusCode(200)
        .body("state", equalTo("stopped"))
        .body("stopReason", equalTo("goal reached"));
    Map<String, Object> body = scene.body(START);
    body.put("reason", "again");
    put(scene, id, body).statusCode(422);
    scene.post("/api/programs/" + id + "/stop", Map.of("reason", "twice")).statusCode(422);
    scene
        .post(
            "/api/programs/" + id + "/pause",
            Map.of("from", "2026-03-12", "to", "2026-03-13", "reason", "x"))
        .statusCode(422);
  }

  @Test
  void firstSessionAndSettingWaitForTheSignatureAndForThoseWhoTreat() {
    Desk.Scene scene = desk.scene();
    String id = scene.drafted(scene.body(START));
    String tag = shelf.newUnit(scene.location(), shelf.kind(2));
    String small = shelf.newUnit(scene.location(), shelf.kind(1));
    scene.post("/api/programs/" + id + "/first-session", Map.of()).statusCode(422);
    scene.post("/api/programs/" + id + "/setting", Map.of("unitTag", tag)).statusCode(422);
    scene.post("/api/programs/" + id + "/signature", Map.of("reviewed", true)).statusCode(200);
    Crew.Member student = desk.member(Roles.THERAPIST, Credential.STUDENT_PT, scene);
    Desk.Scene.post(student, "/api/programs/" + id + "/first-session", Map.of()).statusCode(422);
    Crew.Member pta = desk.member(Roles.THERAPIST, Credential.PTA, scene);
    Desk.Scene.post(pta, "/api/programs/" + id + "/first-session", Map.of("words", "fine"))
        .statusCode(200)
        .body("firstSessionAt", notNullValue());
    Desk.Scene.post(pta, "/api/programs/" + id + "/first-session", Map.of()).statusCode(422);
    Desk.Scene.post(pta, "/api/programs/" + id + "/setting", Map.of("unitTag", small))
        .statusCode(422)
        .body("errors.field", hasItem("unitTag"));
    Desk.Scene.post(
            pta, "/api/programs/" + id + "/setting", Map.of("unitTag", tag, "matches", false))
        .statusCode(422);
    Desk.Scene.post(pta, "/api/programs/" + id + "/setting", Map.of("unitTag", tag))
        .statusCode(200)
        .body("settings", hasSize(1))
        .body("settings[0].unitTag", equalTo(tag))
        .body("settings[0].version", equalTo(1));
  }

  @Test
  void anEndedLicenseSignsNothing() {
    Desk.Scene scene = desk.scene();
    String id = scene.drafted(scene.body(START));
    Crew.Member pt = desk.licensedUntil("2026-03-02", scene);
    Desk.Scene.post(pt, "/api/programs/" + id + "/signature", Map.of("reviewed", true))
        .statusCode(422)
        .body("errors", hasSize(1))
        .body(
            "errors[0].message",
            equalTo(
                "Your license ended on 03/02/2026. A manager enters the renewed license, or another PT"
                    + " signs."));
    Crew.Member lastDay = desk.licensedUntil("2026-03-03", scene);
    Desk.Scene.post(lastDay, "/api/programs/" + id + "/signature", Map.of("reviewed", true))
        .statusCode(200);
  }

  @Test
  void whatLeavesLaterIsToldToTheCupboardOnItsDay() {
    Desk.Scene scene = desk.scene();
    scene.signed(scene.body(START));
    List<DatedPacks> dated =
        packsToCome
            .dated(scene.location(), LocalDate.parse("2026-03-03"), LocalDate.parse("2026-04-30"))
            .stream()
            .filter(one -> one.padCode().equals(scene.pad()))
            .toList();
    assertThat(dated)
        .extracting(one -> one.on() + " " + one.packs())
        .containsExactly("2026-03-04 2", "2026-03-24 1", "2026-04-03 1", "2026-04-13 1");
    assertThat(dated.get(0).chance()).isEqualTo(1.0);
    assertThat(dated.get(1).chance()).as("without history").isEqualTo(0.8);
  }

  @Test
  void anotherLocationsTherapistSeesNothing() {
    Desk.Scene scene = desk.scene();
    String id = scene.drafted(scene.body(START));
    Desk.Scene other = desk.scene();
    other.pt().script().get("/api/programs/" + id).then().statusCode(404);
    Desk.Scene.post(other.pt(), "/api/programs/" + id + "/signature", Map.of("reviewed", true))
        .statusCode(404);
    scene.get(id).body("signedVersion", nullValue());
  }

  private static io.restassured.response.ValidatableResponse put(
      Desk.Scene scene, String id, Map<String, Object> body) {
    return scene
        .pt()
        .script()
        .contentType(ContentType.JSON)
        .body(body)
        .put("/api/programs/" + id)
        .then();
  }

  @Test
  void aColleagueOfTheLocationTakesAProgramOverAndNobodyElse() {
    Desk.Scene scene = desk.scene();
    String id = scene.signed(scene.body(LocalDate.parse("2026-03-04")));
    Crew.Member colleague = desk.member(Roles.THERAPIST, Credential.PT, scene);
    Crew.Member stranger = desk.member(Roles.THERAPIST, Credential.PT, desk.scene());
    String path = "/api/programs/" + id + "/hand-over";
    scene.post(path, Map.of("therapistId", stranger.id().toString())).statusCode(422);
    scene
        .post(path, Map.of("therapistId", colleague.id().toString()))
        .statusCode(200)
        .body("therapistId", equalTo(colleague.id().toString()));
    scene.post(path, Map.of("therapistId", colleague.id().toString())).statusCode(422);
  }
}
