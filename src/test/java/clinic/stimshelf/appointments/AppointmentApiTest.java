package clinic.stimshelf.appointments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.ShelfScene;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

@QuarkusTest
class AppointmentApiTest {
  @Inject Locations locations;
  @Inject Patients patients;
  @Inject Shelf shelf;
  @Inject ShelfScene scene;
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject MutableClock clock;
  private Long place;
  private Member desk;

  @BeforeEach
  void aDay() {
    clock.set(Instant.parse("2026-03-04T12:00:00Z"));
    place = crew.location(Crew.unique("AApi"));
    locations.addRoom(place, "Gym", 1);
    desk = crew.member(Roles.FRONT_DESK, Credential.NONE, place);
  }

  @Test
  void anAppointmentIsBookedReadMovedAndCancelled() {
    Response made = post("", entry(folk.patient(place), "2026-03-04T09:00:00-05:00"));
    made.then()
        .statusCode(201)
        .body("state", equalTo("booked"))
        .body("startsAt", equalTo("2026-03-04T09:00:00-05:00"))
        .body("room", equalTo("Gym"))
        .body("unitTag", nullValue());
    String id = made.path("id");
    Map<String, Object> later = new HashMap<>(entry(null, "2026-03-04T10:00:00-05:00"));
    put(id, "\"99\"", later).then().statusCode(412);
    put(id, made.header("ETag"), later)
        .then()
        .statusCode(200)
        .body("endsAt", equalTo("2026-03-04T10:30:00-05:00"));
    desk.script()
        .get("/api/appointments?from=2026-03-04&to=2026-03-04&state=booked")
        .then()
        .body("total", equalTo(1))
        .body("items.id", hasItem(id));
    desk.script().get("/api/appointments?from=March").then().statusCode(400);
    post("/" + id + "/cancellation", Map.of())
        .then()
        .statusCode(422)
        .body("errors.field", hasItem("reason"));
    desk.script()
        .delete("/api/appointments/" + id + "?reason=Patient+is+ill.")
        .then()
        .statusCode(200)
        .body("state", equalTo("cancelled"));
  }

  @Test
  void anothersUseIsAConflictAndThePatientsOwnARefusal() {
    Long patient = folk.patient(place);
    post("", entry(patient, "2026-03-04T09:00:00-05:00")).then().statusCode(201);
    post("", entry(folk.patient(place), "2026-03-04T09:15:00-05:00"))
        .then()
        .statusCode(409)
        .body("detail", containsString("Free: "));
    post("", entry(patient, "2026-03-04T09:15:00-05:00"))
        .then()
        .statusCode(422)
        .body("errors.field", hasItem("patient"));
    post("", Map.of("location", "nowhere")).then().statusCode(404);
    post("", Map.of()).then().statusCode(422);
  }

  @Test
  void theSameKeyBooksOnce() {
    Map<String, Object> wanted = entry(folk.patient(place), "2026-03-04T11:00:00-05:00");
    String key = Crew.unique("key-");
    String first = withKey(key, wanted).then().statusCode(201).extract().path("id");
    assertThat(withKey(key, wanted).<String>path("id")).isEqualTo(first);
  }

  @Test
  void aVisitUsesAUnitFromArrivalToCompletion() {
    String tag = scene.readyUnit(place, scene.kind(2)).tag();
    Map<String, Object> wanted =
        new HashMap<>(entry(folk.patient(place), "2026-03-04T09:00:00-05:00"));
    wanted.put("channels", 2);
    wanted.put("unitTag", tag);
    String id = post("", wanted).path("id");
    clock.set(Instant.parse("2026-03-04T14:00:00Z"));
    post("/" + id + "/arrival", Map.of("unitTag", tag))
        .then()
        .statusCode(200)
        .body("state", equalTo("arrived"));
    assertThat(shelf.byTag(tag).state()).isEqualTo(UnitState.IN_TREATMENT);
    post("/" + id + "/completion", Map.of("outcome", "partial"))
        .then()
        .statusCode(422)
        .body("errors.field", hasItem("reason"));
    post("/" + id + "/completion", Map.of("outcome", "done"))
        .then()
        .statusCode(200)
        .body("state", equalTo("done"));
    assertThat(shelf.byTag(tag).state()).isEqualTo(UnitState.TO_WIPE);
    post("/" + id + "/no-show", Map.of()).then().statusCode(422);
  }

  @Test
  void withoutAnAccountNothingIsTold() {
    io.restassured.RestAssured.given().get("/api/appointments").then().statusCode(401);
  }

  private Map<String, Object> entry(Long patient, String start) {
    Map<String, Object> entry = new HashMap<>();
    if (patient != null) {
      entry.put("chartNumber", patients.byId(patient).chartNumber());
    }
    entry.put("room", "gym");
    entry.put("startsAt", start);
    entry.put("endsAt", java.time.OffsetDateTime.parse(start).plusMinutes(30).toString());
    return entry;
  }

  private Response post(String path, Map<String, ?> body) {
    return desk.script().contentType(ContentType.JSON).body(body).post("/api/appointments" + path);
  }

  private Response put(String id, String tag, Map<String, ?> body) {
    return desk.script()
        .contentType(ContentType.JSON)
        .header("If-Match", tag)
        .body(body)
        .put("/api/appointments/" + id);
  }

  private Response withKey(String key, Map<String, ?> body) {
    return desk.script()
        .contentType(ContentType.JSON)
        .header("Idempotency-Key", key)
        .body(body)
        .post("/api/appointments");
  }
}
