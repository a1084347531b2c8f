package clinic.stimshelf.outcomes;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.notNullValue;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import io.restassured.response.ValidatableResponse;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

@QuarkusTest
class OutcomesTest {
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject MutableClock clock;

  private Long location;
  private Crew.Member pt;
  private Long patient;

  @BeforeEach
  void aPatient() {
    clock.set(Instant.parse("2026-03-10T14:00:00Z"));
    location = crew.location(Crew.unique("outc"));
    pt = crew.withPassword(Roles.THERAPIST, Credential.PT, location);
    patient = folk.patient(location);
  }

  /** 150 Nm of 200 Nm are 75 %: our arithmetic with the formula of Gokeler 2017. */
  @Test
  void bothSidesGiveTheSymmetryBesideTheClinicsOwnThreshold() {
    post(torque("150", "200"))
        .statusCode(201)
        .body("symmetryPercent", equalTo(75.0f))
        .body("reached", equalTo(false))
        .body("differenceCm", nullValue());
    clock.set(Instant.parse("2026-03-24T14:00:00Z"));
    post(torque("190", "200")).statusCode(201).body("reached", equalTo(true));
    Crew.signIn(pt)
        .get()
        .get("/patients/" + patient + "/outcomes")
        .then()
        .statusCode(200)
        .body(containsString("75.0 %"))
        .body(containsString("at least 90 %"))
        .body(containsString("from 75.0 on 03/10/2026 to 95.0 on 03/24/2026"))
        .body(containsString("a licensed therapist judges"));
    Crew.signIn(pt)
        .get()
        .get("/patients/" + patient)
        .then()
        .body(containsString("Measure outcome"), containsString("95.0 %"));
  }

  @Test
  void girthSaysTheDifferenceInCentimetresAndInches() {
    Crew.signIn(pt)
        .form()
        .formParam("measure", "girth")
        .formParam("what", "15 cm above the kneecap")
        .formParam("side", "left")
        .formParam("involved", "44.97")
        .formParam("uninvolved", "47.5")
        .post("/patients/" + patient + "/outcomes")
        .then()
        .statusCode(303);
    Crew.signIn(pt)
        .get()
        .get("/patients/" + patient + "/outcomes")
        .then()
        .body(containsString("2.5 cm (1.0 in)"), containsString("44.97 / 47.5 cm"));
  }

  @Test
  void everythingThatIsWrongIsToldAtOnceAndWhatWasTypedStays() {
    post(Map.of("measure", "peak-force", "side", "both", "what", " ", "involved", -1))
        .statusCode(422)
        .body("errors.field", hasItems("side", "what", "involved", "uninvolved"));
    Map<String, Object> late = torque("150", "200");
    late.put("happenedAt", "2026-03-02T09:00:00-05:00");
    post(late).statusCode(422).body("errors.field", hasItem("lateReason"));
    late.put("lateReason", "on paper");
    post(late).statusCode(201).body("lateReason", equalTo("on paper"));
    Crew.signIn(pt)
        .form()
        .formParam("measure", "peak-force")
        .formParam("what", "hand-held, knee 90")
        .formParam("involved", "many")
        .post("/patients/" + patient + "/outcomes")
        .then()
        .statusCode(422)
        .body(containsString("hand-held, knee 90"), containsString("many"));
  }

  @Test
  void aWrongEntryIsVoidedAndStays() {
    String id = post(torque("15", "200")).extract().path("id");
    String path = "/api/patients/" + patient + "/outcomes/" + id + "/void";
    send(path, Map.of()).statusCode(422);
    send(path, Map.of("reason", "a digit was lost")).statusCode(200);
    send(path, Map.of("reason", "again")).statusCode(422);
    pt.script()
        .get("/api/patients/" + patient + "/outcomes")
        .then()
        .body("total", equalTo(1))
        .body("items[0].voidedAt", notNullValue());
    Crew.signIn(pt)
        .get()
        .get("/patients/" + patient)
        .then()
        .body(not(containsString("Peak torque")));
  }

  @Test
  void aSecondCallWithTheSameKeyRecordsNothing() {
    for (int i = 0; i < 2; i++) {
      pt.script()
          .header("Idempotency-Key", "outcome-" + patient)
          .contentType(ContentType.JSON)
          .body(torque("150", "200"))
          .post("/api/patients/" + patient + "/outcomes")
          .then()
          .statusCode(201);
    }
    pt.script().get("/api/patients/" + patient + "/outcomes").then().body("total", equalTo(1));
  }

  @Test
  void onlyATherapistRecordsAndAnotherLocationSeesNothing() {
    Crew.Member desk = crew.member(Roles.FRONT_DESK, Credential.NONE, location);
    desk.script()
        .contentType(ContentType.JSON)
        .body(torque("150", "200"))
        .post("/api/patients/" + patient + "/outcomes")
        .then()
        .statusCode(403);
    Crew.Member elsewhere =
        crew.member(Roles.THERAPIST, Credential.PT, crew.location(Crew.unique("else")));
    elsewhere.script().get("/api/patients/" + patient + "/outcomes").then().statusCode(404);
  }

  private static Map<String, Object> torque(String involved, String uninvolved) {
    Map<String, Object> body = new HashMap<>();
    body.put("measure", "peak-torque");
    body.put("side", "left");
    body.put("what", "knee extension, isometric, 60°");
    body.put("involved", Double.valueOf(involved));
    body.put("uninvolved", Double.valueOf(uninvolved));
    return body;
  }

  private ValidatableResponse post(Object body) {
    return send("/api/patients/" + patient + "/outcomes", body);
  }

  private ValidatableResponse send(String path, Object body) {
    return pt.script().contentType(ContentType.JSON).body(body).post(path).then();
  }
}
