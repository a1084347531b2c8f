package clinic.stimshelf.people;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Names and meanings that scripts rely on. */
@QuarkusTest
class PeopleApiTest {
  @Inject Crew crew;
  @Inject Intakes intakes;
  private String code;
  private Member desk;
  private Member pt;
  private Member pta;
  private Member manager;

  @BeforeEach
  void aCrew() {
    code = Crew.unique("PApi");
    Long place = crew.location(code);
    desk = crew.member(Roles.FRONT_DESK, Credential.NONE, place);
    pt = crew.member(Roles.THERAPIST, Credential.PT, place);
    pta = crew.member(Roles.THERAPIST, Credential.PTA, place);
    manager = crew.member(Roles.MANAGER, Credential.NONE, place);
  }

  @Test
  void aPatientIsAddedReadFoundAndChanged() {
    String chart = Crew.unique("A-");
    Response made = post(desk, "/api/patients", patient(chart));
    made.then()
        .statusCode(201)
        .body("chartNumber", equalTo(chart))
        .body("location", equalTo(code))
        .body("birthDate", equalTo("1980-05-17"))
        .body("reachBy", equalTo("email"))
        .body("diedOn", nullValue())
        .body("$", org.hamcrest.Matchers.hasKey("guardianName"));
    String id = made.path("id");
    assertThat(made.header("Location")).endsWith("/api/patients/" + id);
    String tag = desk.script().get("/api/patients/" + id).header("ETag");
    desk.script()
        .get("/api/patients?chartNumber=" + chart)
        .then()
        .body("items.id", equalTo(List.of(id)))
        .body("total", equalTo(1));
    desk.script()
        .get("/api/patients?birthDate=1980-05-17&q=" + chart)
        .then()
        .body("total", equalTo(1));
    Map<String, Object> changed = new HashMap<>(patient(chart));
    changed.put("name", "Ada Berg");
    put(desk, "/api/patients/" + id, tag, changed)
        .then()
        .statusCode(200)
        .body("name", equalTo("Ada Berg"));
    put(desk, "/api/patients/" + id, tag, changed)
        .then()
        .statusCode(412)
        .contentType("application/problem+json");
    put(desk, "/api/patients/" + id, "old", changed).then().statusCode(400);
  }

  @Test
  void thereIsNeverAListWithoutAFilter() {
    desk.script().get("/api/patients").then().statusCode(400).body("errors.field", hasItem("q"));
  }

  @Test
  void everythingWrongComesAtOnce() {
    post(desk, "/api/patients", Map.of("name", "A", "birthDate", "2020-01-01"))
        .then()
        .statusCode(422)
        .body("errors.field", hasItems("chartNumber", "guardianName", "reachBy"));
    post(desk, "/api/patients", Map.of("birthDate", "17/5/1980"))
        .then()
        .statusCode(400)
        .contentType("application/problem+json")
        .body("errors.field", hasItem("birthDate"));
  }

  @Test
  void whoIsNotSignedInOrWorksElsewhereSeesNothing() {
    String id = post(desk, "/api/patients", patient(Crew.unique("A-"))).path("id");
    io.restassured.RestAssured.given().get("/api/patients/" + id).then().statusCode(401);
    Member other = crew.member(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("PElse")));
    other.script().get("/api/patients/" + id).then().statusCode(404);
    other.script().get("/api/patients/" + id + "/consents").then().statusCode(404);
    desk.script().get("/api/patients/x").then().statusCode(404);
  }

  @Test
  void onlyATherapistScreensAndThatIsSaidBeforeTheRestIsLookedAt() {
    String id = post(desk, "/api/patients", patient(Crew.unique("A-"))).path("id");
    for (String path : List.of("screenings", "orders", "clearances")) {
      post(desk, "/api/patients/" + id + "/" + path, Map.of()).then().statusCode(403);
      post(manager, "/api/patients/" + id + "/" + path, Map.of()).then().statusCode(403);
      post(pt, "/api/patients/" + id + "/" + path, Map.of()).then().statusCode(422);
    }
  }

  @Test
  void theWayFromTheFormToAClearScreening() {
    String id = post(desk, "/api/patients", patient(Crew.unique("A-"))).path("id");
    Map<String, Object> said = new HashMap<>();
    intakes.questionsFor("quadriceps").forEach(question -> said.put(question.key(), "no"));
    said.put("repair_at_risk", "yes");
    said.put("swelling_postop", "not-sure");
    post(
            desk,
            "/api/patients/" + id + "/intakes",
            Map.of(
                "muscle", "quadriceps",
                "side", "left",
                "answeredBy", "Ada Lindqvist",
                "means", "screen",
                "answers", said))
        .then()
        .statusCode(201);
    status(id).then().body("current", equalTo(false)).body("screeningId", nullValue());

    List<Map<String, Object>> answers = new ArrayList<>();
    pta.script()
        .get("/api/screening-questions?muscle=quadriceps")
        .then()
        .extract()
        .<List<String>>path("key")
        .forEach(
            key ->
                answers.add(
                    new HashMap<>(Map.of("key", key, "answer", said.getOrDefault(key, "no")))));
    Response screened =
        post(
            pta,
            "/api/patients/" + id + "/screenings",
            Map.of("muscle", "quadriceps", "side", "left", "answers", answers));
    screened.then().statusCode(201).body("answers", hasSize(answers.size()));
    status(id)
        .then()
        .body("current", equalTo(true))
        .body("clear", equalTo(false))
        .body("openHolds.key", equalTo(List.of("repair_at_risk")))
        .body("unacceptedPrecautions.key", equalTo(List.of("swelling_postop")))
        .body("reasons.cure", hasItem(containsString("licensed PT")));

    String acceptances =
        "/api/patients/" + id + "/screenings/" + screened.path("id") + "/acceptances";
    Map<String, Object> accepted = Map.of("key", "swelling_postop", "reason", "Mild, no heat.");
    post(pta, acceptances, accepted).then().statusCode(422);
    post(pt, acceptances, accepted).then().statusCode(200);
    post(
            pt,
            "/api/patients/" + id + "/clearances",
            Map.of(
                "question", "repair_at_risk",
                "muscle", "quadriceps",
                "side", "left",
                "clearedBy", "Dr. Vale",
                "clearedOn", "2026-01-05",
                "scope", "isometric"))
        .then()
        .statusCode(201);
    status(id).then().body("clear", equalTo(true)).body("reasons", hasSize(0));
    desk.script()
        .get("/api/patients/" + id + "/clearances")
        .then()
        .body("[0].clearedBy", equalTo("Dr. Vale"))
        .body("[0].id", org.hamcrest.Matchers.instanceOf(String.class));
  }

  @Test
  void aFormWithEverythingLeftOutSaysWhatIsMissing() {
    String id = post(desk, "/api/patients", patient(Crew.unique("A-"))).path("id");
    post(pt, "/api/patients/" + id + "/screenings", Map.of("muscle", "quadriceps", "side", "left"))
        .then()
        .statusCode(422)
        .body("errors.field", hasItems("pacemaker_demand", "clot_dvt", "nerve_block"));
    post(pt, "/api/patients/" + id + "/screenings", Map.of("side", "upper")).then().statusCode(400);
  }

  @Test
  void consentsAndOrdersReadBack() {
    String id = post(desk, "/api/patients", patient(Crew.unique("A-"))).path("id");
    post(
            desk,
            "/api/patients/" + id + "/consents",
            Map.of(
                "kind", "loan",
                "textVersion", "2",
                "signer", "Ada Lindqvist",
                "relation", "self",
                "means", "paper"))
        .then()
        .statusCode(201);
    desk.script()
        .get("/api/patients/" + id + "/consents")
        .then()
        .body("[0].given", equalTo(true))
        .body("[0].kind", equalTo("loan"));
    String order =
        post(
                pt,
                "/api/patients/" + id + "/orders",
                Map.of("prescriber", "Dr. Vale", "orderedOn", "2026-01-05", "ordered", "NMES"))
            .path("id");
    post(
            pt,
            "/api/patients/" + id + "/orders/" + order + "/withdrawal",
            Map.of("reason", "Wrong patient."))
        .then()
        .statusCode(200)
        .body("[0].withdrawnReason", equalTo("Wrong patient."));
  }

  private Response status(String id) {
    return desk.script()
        .get("/api/patients/" + id + "/screenings/status?muscle=quadriceps&side=left");
  }

  private Map<String, Object> patient(String chart) {
    return Map.of(
        "chartNumber", chart,
        "name", "Ada Lindqvist",
        "birthDate", "1980-05-17",
        "reachBy", "email",
        "email", "ada@example.org");
  }

  private static Response post(Member who, String path, Map<String, ?> body) {
    return who.script().contentType(ContentType.JSON).body(body).post(path);
  }

  private static Response put(Member who, String path, String tag, Map<String, ?> body) {
    return who.script().contentType(ContentType.JSON).header("If-Match", tag).body(body).put(path);
  }
}
