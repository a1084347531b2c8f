package clinic.stimshelf.program;

import static org.hamcrest.Matchers.containsInAnyOrder;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.access.Credential;
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
class ProgramFromDraftToSignatureTest {
  private static final LocalDate START = LocalDate.parse("2026-03-04");

  @Inject Desk desk;

  @BeforeEach
  void onTuesday() {
    desk.at("2026-03-03", "09:00");
  }

  /** 2 a day, 7 days, 6 weeks: 84 sessions (facts sheet of the trial), 20 uses a set: 5 sets. */
  @Test
  void aCompleteTemplateIsSignedAndFixesDaysAndPacks() {
    Desk.Scene scene = desk.scene();
    String id = scene.drafted(scene.body(START));
    scene
        .get(id)
        .body("state", equalTo("draft"))
        .body("version", equalTo(1))
        .body("signedVersion", nullValue())
        .body("sessions", equalTo(84))
        .body("changes.size()", equalTo(0))
        .body("onSeconds", equalTo(15))
        .body("sessionSeconds", equalTo(900))
        .body("placements[0].muscle", equalTo("quadriceps"))
        .body("placements[0].side", equalTo("left"))
        .body("placements[0].channels", equalTo(2))
        .body("pads[0].perSession", equalTo(4));
    scene
        .post("/api/programs/" + id + "/signature", Map.of("reviewed", true))
        .statusCode(200)
        .body("state", equalTo("signed"))
        .body("signedVersion", equalTo(1))
        .body("startsOn", equalTo("2026-03-04"))
        .body("lastSessionOn", equalTo("2026-04-14"))
        .body("dueOn", equalTo("2026-04-15"))
        .body("dueKind", equalTo("drop-off"))
        .body(
            "padChanges", equalTo(List.of("2026-03-14", "2026-03-24", "2026-04-03", "2026-04-13")))
        .body("packsNow", equalTo(2))
        .body("packsLater", equalTo(3));
  }

  @Test
  void everythingThatStandsAgainstASignatureIsToldAtOnce() {
    Desk.Scene scene = desk.scene();
    Map<String, Object> body = scene.body(START.minusDays(9));
    body.remove("setting");
    body.remove("dueKind");
    body.put("template", "acl-home-multipath");
    body.put("placements", List.of(Map.of("muscle", "calf", "side", "right", "channels", 1)));
    String id = scene.drafted(body);
    scene
        .post("/api/programs/" + id + "/signature", Map.of("reviewed", false))
        .statusCode(422)
        .body(
            "errors.field",
            hasItems(
                "reviewed",
                "startsOn",
                "setting",
                "dueKind",
                "pulseWidthUs",
                "rampInsideOn",
                "screening"));
  }

  @Test
  void onlyALicensedPtSigns() {
    Desk.Scene scene = desk.scene();
    for (Credential credential : List.of(Credential.PTA, Credential.STUDENT_PT)) {
      Crew.Member other = desk.member(Roles.THERAPIST, credential, scene);
      String id =
          Desk.Scene.post(other, "/api/programs", scene.body(START))
              .statusCode(201)
              .extract()
              .path("id");
      Desk.Scene.post(other, "/api/programs/" + id + "/signature", Map.of("reviewed", true))
          .statusCode(422)
          .body("errors.size()", equalTo(1));
      scene
          .post("/api/programs/" + id + "/signature", Map.of("reviewed", true))
          .statusCode(200)
          .body("versions[0].cosigned", equalTo(true));
    }
  }

  @Test
  void frontDeskAndManagerNeitherDraftNorSign() {
    Desk.Scene scene = desk.scene();
    String id = scene.drafted(scene.body(START));
    for (String role : List.of(Roles.FRONT_DESK, Roles.MANAGER)) {
      Crew.Member other = desk.member(role, Credential.PT, scene);
      Desk.Scene.post(other, "/api/programs", Map.of()).statusCode(403);
      Desk.Scene.post(other, "/api/programs/" + id + "/signature", Map.of()).statusCode(403);
    }
  }

  @Test
  void whatDiffersFromTheTemplateIsMarked() {
    Desk.Scene scene = desk.scene();
    Map<String, Object> body = scene.body(START);
    body.put("daysPerWeek", 3);
    body.put("weeks", 4);
    body.put("onSeconds", 15.0);
    scene
        .get(scene.drafted(body))
        .body("sessions", equalTo(24))
        .body("changes.field", containsInAnyOrder("daysPerWeek", "weeks"))
        .body("changes.find{it.field=='daysPerWeek'}.source", equalTo("7"))
        .body("changes.find{it.field=='daysPerWeek'}.now", equalTo("3"));
  }

  @Test
  void namedWeekdaysStandAgainstTheTemplatesNumber() {
    Desk.Scene scene = desk.scene();
    Map<String, Object> body = scene.body(START);
    body.put("weekdays", List.of("monday", "wednesday", "friday"));
    body.put("weeks", 4);
    scene
        .get(scene.drafted(body))
        .body("weekdays", equalTo(List.of("monday", "wednesday", "friday")))
        .body("daysPerWeek", equalTo(3))
        .body("sessions", equalTo(24))
        .body("lastSessionOn", equalTo("2026-03-30"));
  }

  @Test
  void aDraftMayHoldBlanksButNothingWrong() {
    Desk.Scene scene = desk.scene();
    scene
        .post("/api/programs", Map.of("patientId", scene.patient()))
        .statusCode(201)
        .body("sessions", nullValue())
        .body("packsNow", nullValue());
    Map<String, Object> body = scene.body(START);
    body.put("weeks", 0);
    body.put("onSeconds", -1);
    body.put("template", "invented");
    body.put("pads", List.of(Map.of("code", "no-such", "perSession", -1)));
    scene
        .post("/api/programs", body)
        .statusCode(422)
        .body("errors.field", hasItems("weeks", "onSeconds", "template", "pads", "perSession"));
  }

  @Test
  void anOldVersionIsNeitherRewrittenNorSigned() {
    Desk.Scene scene = desk.scene();
    String id = scene.drafted(scene.body(START));
    Map<String, Object> body = scene.body(START.plusDays(1));
    put(scene, id, "\"1\"", body).statusCode(200).body("version", equalTo(2));
    put(scene, id, "\"1\"", body).statusCode(412);
    scene
        .pt()
        .script()
        .header("If-Match", "\"1\"")
        .contentType(ContentType.JSON)
        .body(Map.of("reviewed", true))
        .post("/api/programs/" + id + "/signature")
        .then()
        .statusCode(412);
    scene
        .pt()
        .script()
        .get("/api/programs/" + id + "?version=1")
        .then()
        .body("startsOn", equalTo("2026-03-04"))
        .body("versionState", equalTo("set-aside"));
  }

  private static io.restassured.response.ValidatableResponse put(
      Desk.Scene scene, String id, String tag, Map<String, Object> body) {
    return scene
        .pt()
        .script()
        .header("If-Match", tag)
        .contentType(ContentType.JSON)
        .body(body)
        .put("/api/programs/" + id)
        .then();
  }
}
