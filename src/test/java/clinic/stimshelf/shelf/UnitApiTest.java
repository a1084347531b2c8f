package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.contains;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.greaterThan;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasKey;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.notNullValue;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import io.restassured.response.ValidatableResponse;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Units as scripts see and change them. */
@QuarkusTest
class UnitApiTest {
  @Inject Crew crew;
  @Inject ShelfScene scene;
  @Inject Shelf shelf;
  @Inject Locations locations;

  private Long location;
  private String code;
  private String kind;
  private Member desk;
  private Member therapist;
  private Member manager;

  @BeforeEach
  void people() {
    location = scene.location();
    code = locations.byId(location).code();
    kind = scene.kind(2);
    desk = crew.member(Roles.FRONT_DESK, Credential.NONE, location);
    therapist = crew.member(Roles.THERAPIST, Credential.PT, location);
    manager = crew.member(Roles.MANAGER, Credential.NONE, location);
  }

  @Test
  void theFieldsThatStayAreThereAndAbsentOnesAreNull() {
    String tag = scene.newUnit(location, kind);
    desk.script()
        .get("/api/units/" + tag)
        .then()
        .statusCode(200)
        .header("ETag", notNullValue())
        .body("tag", equalTo(tag))
        .body("kind", equalTo(kind))
        .body("channels", equalTo(2))
        .body("connector", equalTo("pin-2mm"))
        .body("location", equalTo(code))
        .body("$", hasKey("spot"))
        .body("spot", nullValue())
        .body("state", equalTo("to-inspect"))
        .body("purpose", equalTo("both"))
        .body("nextTestOn", notNullValue())
        .body("$", hasKey("chargedAt"))
        .body("chargedAt", nullValue())
        .body("version", notNullValue())
        .body("contents.part", contains("lead-set", "charger", "bag"))
        .body("contents.tag", contains(tag + "-L1", tag + "-C1", tag + "-B1"));
  }

  @Test
  void aListIsPagedAndNarrowed() {
    String ready = scene.readyUnit(location, kind).tag();
    scene.newUnit(location, kind);
    desk.script()
        .get("/api/units?location=" + code + "&size=1")
        .then()
        .body("items", hasSize(1))
        .body("total", equalTo(2));
    desk.script().get("/api/units?state=ready").then().body("items.tag", contains(ready));
    desk.script().get("/api/units?state=lost").then().statusCode(400);
  }

  @Test
  void aUnitGoesFromTheHomeToTheShelfAgain() {
    UnitView unit = scene.readyUnit(location, kind);
    scene.set(
        unit.tag(),
        row -> {
          row.state = UnitState.TO_WIPE;
          row.needsWipe = true;
          row.needsInspection = true;
        });
    post(desk, unit.tag(), "wiped", Map.of("product", "gray-tub"))
        .statusCode(200)
        .body("state", equalTo("to-wipe"))
        .body("readyAt", notNullValue());
    scene.set(unit.tag(), row -> row.wipeCountsAt = scene.now().at());
    post(therapist, unit.tag(), "inspected", Map.of("passed", true))
        .statusCode(200)
        .body("state", equalTo("ready"));
    post(desk, unit.tag(), "charged", Map.of()).statusCode(200).body("charged", equalTo(true));
  }

  @Test
  void aBodyMayBeLeftOutWhereNothingNeedsSaying() {
    UnitView unit = scene.readyUnit(location, kind);
    desk.script()
        .contentType(ContentType.JSON)
        .post("/api/units/" + unit.tag() + "/charged")
        .then()
        .statusCode(200)
        .body("charged", equalTo(true));
  }

  @Test
  void aRefusalHasEveryReason() {
    String tag = scene.newUnit(location, kind);
    post(therapist, tag, "inspected", Map.of("answers", Map.of("case-whole", true, "odd", true)))
        .statusCode(422)
        .contentType(containsString("application/problem+json"))
        .body("errors.field", hasItem("answers.leads-sound"))
        .body("errors.field", hasItem("answers.odd"))
        .body("errors.size()", greaterThan(5));
  }

  @Test
  void anOldVersionIsRefused() {
    UnitView unit = scene.readyUnit(location, kind);
    int old = unit.version();
    post(desk, unit.tag(), "charging", Map.of()).statusCode(200);
    desk.script()
        .header("If-Match", "\"" + old + "\"")
        .contentType(ContentType.JSON)
        .body(Map.of())
        .post("/api/units/" + unit.tag() + "/charged")
        .then()
        .statusCode(412);
    desk.script()
        .header("If-Match", "\"" + shelf.byTag(unit.tag()).version() + "\"")
        .contentType(ContentType.JSON)
        .body(Map.of())
        .post("/api/units/" + unit.tag() + "/charged")
        .then()
        .statusCode(200);
  }

  @Test
  void aRepeatedCallWithItsKeyTakesEffectOnce() {
    UnitView unit = scene.readyUnit(location, kind);
    String key = ShelfScene.unique("key");
    for (int i = 0; i < 2; i++) {
      desk.script()
          .header("Idempotency-Key", key)
          .contentType(ContentType.JSON)
          .body(Map.of("reason", "rattles", "cause", "fault"))
          .post("/api/units/" + unit.tag() + "/out-of-service")
          .then()
          .statusCode(200)
          .body("state", equalTo("out-of-service"));
    }
    manager.script().get("/api/units/" + unit.tag()).then().body("faults.faults", equalTo(1));
  }

  @Test
  void anEarlierDayNeedsAReason() {
    UnitView unit = scene.readyUnit(location, kind);
    scene.since(unit.tag(), java.time.Duration.ofDays(5));
    String when = scene.in(java.time.Duration.ofDays(-2)).toString();
    post(desk, unit.tag(), "charged", Map.of("happenedAt", when))
        .statusCode(422)
        .body("errors.field", contains("lateReason"));
    post(desk, unit.tag(), "charged", Map.of("happenedAt", when, "lateReason", "on paper"))
        .statusCode(200);
    post(desk, unit.tag(), "charged", Map.of("happenedAt", "2199-01-01T00:00:00-05:00"))
        .statusCode(422)
        .body("errors.field", contains("happenedAt"));
  }

  @Test
  void theFrontDeskDoesNotJudgeWhetherAUnitWorks() {
    String tag = scene.newUnit(location, kind);
    post(desk, tag, "inspected", Map.of("passed", true)).statusCode(403);
    post(desk, tag, "safety-test", Map.of("passed", true)).statusCode(403);
    post(therapist, tag, "inspected", Map.of("passed", true)).statusCode(200);
  }

  @Test
  void unitsOfAnotherLocationAreNotThere() {
    Long elsewhere = scene.location();
    String tag = scene.newUnit(elsewhere, kind);
    desk.script().get("/api/units/" + tag).then().statusCode(404);
    post(desk, tag, "charged", Map.of()).statusCode(404);
    List<String> tags = desk.script().get("/api/units").then().extract().path("items.tag");
    assertThat(tags).doesNotContain(tag);
    desk.script()
        .get("/api/units?location=" + locations.byId(elsewhere).code())
        .then()
        .statusCode(404);
  }

  @Test
  void aManagerAddsAUnit() {
    String tag = ShelfScene.unique("N");
    manager
        .script()
        .contentType(ContentType.JSON)
        .body(Map.of("tag", tag, "serial", "S-9", "kind", kind, "location", code))
        .post("/api/units")
        .then()
        .statusCode(201)
        .header("Location", containsString("/api/units/" + tag))
        .body("state", equalTo("to-inspect"));
    manager
        .script()
        .contentType(ContentType.JSON)
        .body(Map.of("tag", tag.toLowerCase(), "serial", "S-9", "kind", "none", "purpose", "fun"))
        .post("/api/units")
        .then()
        .statusCode(422)
        .body("errors.field", hasItem("tag"))
        .body("errors.field", hasItem("kind"))
        .body("errors.field", hasItem("purpose"));
    desk.script()
        .contentType(ContentType.JSON)
        .body(Map.of())
        .post("/api/units")
        .then()
        .statusCode(403);
  }

  @Test
  void aSafetyTestMovesTheDay() {
    String tag = scene.newUnit(location, kind);
    String today = locations.today(location).toString();
    post(manager, tag, "safety-test", Map.of("testedOn", today, "passed", true))
        .statusCode(200)
        .body("nextTestOn", equalTo(locations.today(location).plusMonths(12).toString()));
    post(manager, tag, "safety-test", Map.of("testedOn", today)).statusCode(400);
  }

  @Test
  void nobodyIsLetInWithoutASignIn() {
    io.restassured.RestAssured.given().get("/api/units").then().statusCode(401);
  }

  private static ValidatableResponse post(
      Member who, String tag, String what, Map<String, ?> body) {
    return who.script()
        .contentType(ContentType.JSON)
        .body(body)
        .post("/api/units/" + tag + "/" + what)
        .then();
  }
}
