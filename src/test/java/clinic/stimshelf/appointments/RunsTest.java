package clinic.stimshelf.appointments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.hasSize;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.location.ClosureView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import io.restassured.response.ValidatableResponse;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Several appointments are proposed as the best run of free times, and booked all or none. */
@QuarkusTest
class RunsTest {
  @Inject Locations locations;
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject MutableClock clock;
  private Long place;
  private Member desk;
  private Member kim;
  private Long patient;

  @BeforeEach
  void aMonday() {
    // Monday, 8 o'clock in New York; open on weekdays from 8 to 18.
    clock.set(Instant.parse("2026-03-02T13:00:00Z"));
    place = crew.location(Crew.unique("Run"));
    locations.addRoom(place, "Gym", 1);
    desk = crew.member(Roles.FRONT_DESK, Credential.NONE, place);
    kim = crew.member(Roles.THERAPIST, Credential.PT, place);
    patient = folk.patient(place);
  }

  @Test
  void theEarliestRunAtTheWishedTimeIsProposedAndNothingIsBooked() {
    run(true, wish(4, 2, 48))
        .statusCode(200)
        .body("complete", equalTo(true))
        .body(
            "visits.startsAt",
            equalTo(
                List.of(
                    "2026-03-02T09:00:00-05:00",
                    "2026-03-04T09:00:00-05:00",
                    // Over the change to summer time 48 hours of the clock on the wall count.
                    "2026-03-09T09:00:00-04:00",
                    "2026-03-11T09:00:00-04:00")))
        .body("why", hasItems("All 4 that are asked for fit.", "Each is at the wished time."))
        .body("booked", hasSize(0));
    desk.script().get("/api/appointments").then().body("total", equalTo(0));
  }

  @Test
  void aClosedDayIsLeftOut() {
    locations.close(
        place, new ClosureView(java.time.LocalDate.of(2026, 3, 4), null, null, "Staff day"));
    run(true, wish(2, 2, 48))
        .body(
            "visits.startsAt",
            equalTo(List.of("2026-03-02T09:00:00-05:00", "2026-03-05T09:00:00-05:00")));
  }

  @Test
  void aHalfDayTakesWhatFitsAndAnotherLocationsClosureChangesNothing() {
    java.time.LocalDate day = java.time.LocalDate.of(2026, 3, 4);
    Long other = crew.location(Crew.unique("Other"));
    locations.close(other, new ClosureView(day, null, null, "Water main repair"));
    run(true, wish(2, 2, 48))
        .body(
            "visits.startsAt",
            equalTo(List.of("2026-03-02T09:00:00-05:00", "2026-03-04T09:00:00-05:00")));
    locations.close(
        place,
        new ClosureView(
            day, java.time.LocalTime.of(13, 0), java.time.LocalTime.of(18, 0), "Staff morning"));
    // The earliest last visit counts before the wished time of day.
    run(true, wish(2, 2, 48))
        .body(
            "visits.startsAt",
            equalTo(List.of("2026-03-02T09:00:00-05:00", "2026-03-04T13:00:00-05:00")));
  }

  @Test
  void theWholeRunIsBookedAtOnce() {
    run(false, wish(4, 2, 48)).statusCode(200).body("booked", hasSize(4));
    desk.script().get("/api/appointments").then().body("total", equalTo(4));
    // The patient is there from 9:00 to 9:45; of the two nearest times the earlier one is taken.
    run(true, wish(1, 2, 48))
        .body("visits.startsAt", equalTo(List.of("2026-03-02T08:15:00-05:00")));
  }

  @Test
  void aRunThatDoesNotFitBooksNothing() {
    Map<String, Object> wish = wish(5, 1, 336);
    run(false, wish)
        .statusCode(422)
        .body("errors.message", hasItem(containsString("so none is booked")));
    desk.script().get("/api/appointments").then().body("total", equalTo(0));
  }

  @Test
  void ofTwoWhoBookTheSameProposalTheSecondHearsEveryVisitThatIsGone() {
    Crew.Member clerk = crew.withPassword(Roles.FRONT_DESK, Credential.NONE, place);
    Crew.Browser browser = Crew.signIn(clerk);
    String chart =
        desk.script().get("/api/patients/" + patient).then().extract().path("chartNumber");
    String page = form(browser, chart).formParam("do", "propose").post("/schedule/run").asString();
    assertThat(page).contains("Book all 2");
    List<String> keys = new java.util.ArrayList<>();
    java.util.regex.Matcher found =
        java.util.regex.Pattern.compile("name=\"visit\" value=\"([^\"]+)\"").matcher(page);
    while (found.find()) {
      keys.add(found.group(1));
    }
    assertThat(keys).hasSize(2);
    java.util.regex.Matcher mark =
        java.util.regex.Pattern.compile("name=\"wished\" value=\"([^\"]+)\"").matcher(page);
    assertThat(mark.find()).isTrue();
    form(browser, chart)
        .formParam("do", "book")
        .formParam("visit", keys)
        .formParam("wished", "another")
        .post("/schedule/run")
        .then()
        .statusCode(422)
        .body(containsString("changed after the proposal"));
    Map<String, Object> other = wish(2, 2, 48);
    other.put("patientId", String.valueOf(folk.patient(place)));
    run(false, other).statusCode(200);
    form(browser, chart)
        .formParam("do", "book")
        .formParam("visit", keys)
        .formParam("wished", mark.group(1))
        .post("/schedule/run")
        .then()
        .statusCode(422)
        .body(containsString("2 things stand against this"))
        .body(containsString("The room is full"));
    desk.script().get("/api/appointments").then().body("total", equalTo(2));
  }

  @Test
  void everythingOutOfRangeIsSaidAtOnce() {
    Map<String, Object> wish = wish(0, 9, -1);
    wish.put("from", "2026-03-01");
    run(true, wish)
        .statusCode(422)
        .body("errors.field", hasItems("visits", "perWeek", "hoursApart", "from"));
  }

  private io.restassured.specification.RequestSpecification form(
      Crew.Browser browser, String chart) {
    return browser
        .form()
        .formParam("chart", chart)
        .formParam("visits", 2)
        .formParam("perWeek", 2)
        .formParam("hoursApart", 48)
        .formParam("from", "2026-03-02")
        .formParam("at", "09:00")
        .formParam("minutes", 45)
        .formParam("channels", 0)
        .formParam("room", locations.rooms(place).get(0).id());
  }

  private Map<String, Object> wish(int visits, int perWeek, int hoursApart) {
    Map<String, Object> wish = new HashMap<>();
    wish.put("patientId", String.valueOf(patient));
    wish.put("visits", visits);
    wish.put("perWeek", perWeek);
    wish.put("hoursApart", hoursApart);
    wish.put("from", "2026-03-02");
    wish.put("at", "09:00");
    wish.put("minutes", 45);
    wish.put("room", "Gym");
    wish.put("therapistId", String.valueOf(kim.id()));
    return wish;
  }

  private ValidatableResponse run(boolean dryRun, Map<String, Object> wish) {
    return desk.script()
        .contentType(ContentType.JSON)
        .body(wish)
        .post("/api/appointment-runs?dryRun=" + dryRun)
        .then();
  }
}
