package clinic.stimshelf.appointments;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.ShelfScene;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The schedule as a browser without script uses it. */
@QuarkusTest
class SchedulePagesTest {
  @Inject Appointments appointments;
  @Inject Locations locations;
  @Inject Patients patients;
  @Inject Shelf shelf;
  @Inject ShelfScene scene;
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject MutableClock clock;
  private Long place;
  private Browser desk;

  @BeforeEach
  void aDay() {
    // Ten minutes before the first appointment, so that the sign-in outlasts the wait.
    clock.set(Instant.parse("2026-03-04T13:50:00Z"));
    place = crew.location(Crew.unique("SPage"));
    locations.addRoom(place, "Gym", 1);
    desk = Crew.signIn(crew.withPassword(Roles.FRONT_DESK, Credential.NONE, place));
  }

  @Test
  void aVisitFromBookingToWiping() {
    String tag = scene.readyUnit(place, scene.kind(2)).tag();
    Long patient = folk.patient(place);
    assertThat(desk.get().get("/schedule").asString())
        .contains("Wednesday, March 4, 2026")
        .contains("nobody booked yet");
    book(patient, "09:00", tag).then().statusCode(303);
    Long id = only().id();
    assertThat(desk.get().get("/schedule?day=2026-03-04").asString())
        .contains("9:00 AM")
        .contains(tag)
        .contains("Arrived");
    assertThat(desk.get().get("/schedule/list?day=2026-03-04").asString()).contains(tag);
    assertThat(desk.get().get("/schedule/" + id).asString()).contains("Move or change");

    clock.set(Instant.parse("2026-03-04T14:00:00Z"));
    Response arrived =
        desk.form()
            .formParam("back", "day")
            .formParam("unitTag", tag)
            .post("/schedule/" + id + "/arrival");
    arrived.then().statusCode(303);
    assertThat(arrived.header("Location")).endsWith("/schedule?day=2026-03-04");
    assertThat(desk.get().get("/schedule/" + id).asString()).contains("Complete appointment");
    Response partly =
        desk.form().formParam("outcome", "partial").post("/schedule/" + id + "/completion");
    partly.then().statusCode(422);
    assertThat(partly.asString()).contains("Say why it was partly done.");
    desk.form()
        .formParam("outcome", "partial")
        .formParam("reason", "Tired.")
        .post("/schedule/" + id + "/completion")
        .then()
        .statusCode(303);
    assertThat(shelf.byTag(tag).state()).isEqualTo(UnitState.TO_WIPE);
    assertThat(desk.get().get("/schedule/" + id + "?done=completed").asString())
        .contains("is to be wiped")
        .contains("Tired.");
  }

  @Test
  void whatIsTakenComesBackWithFreeTimesAndWhatWasTyped() {
    book(folk.patient(place), "09:00", "").then().statusCode(303);
    Response taken = book(folk.patient(place), "09:15", "");
    taken.then().statusCode(422);
    assertThat(taken.asString())
        .contains("The room is full")
        .contains("Free: Wed Mar 4")
        .contains("value=\"09:15\"");
    Response unreadable =
        desk.form()
            .formParam("chart", "nobody-at-all")
            .formParam("day", "2026-03-04")
            .formParam("time", "late")
            .formParam("minutes", "1000")
            .formParam("unit", "no-such-unit")
            .post("/schedule");
    unreadable.then().statusCode(422);
    assertThat(unreadable.asString())
        .contains("No patient here has this chart number")
        .contains("The time must be a time")
        .contains("The length in minutes must be")
        .contains("value=\"nobody-at-all\"");
  }

  @Test
  void movingAndCancellingOnThePageOfTheAppointment() {
    book(folk.patient(place), "09:00", "").then().statusCode(303);
    AppointmentView before = only();
    move(before, "10:30").then().statusCode(303);
    assertThat(only().begins()).isEqualTo(java.time.LocalTime.of(10, 30));
    Response stale = move(before, "11:30");
    stale.then().statusCode(422);
    assertThat(stale.asString()).contains("a moment ago").contains("value=\"11:30\"");
    String path = "/schedule/" + before.id();
    desk.form().post(path + "/cancellation").then().statusCode(422);
    desk.form().formParam("reason", "Ill.").post(path + "/cancellation").then().statusCode(303);
    assertThat(only().state()).isEqualTo(AppointmentState.CANCELLED);
  }

  @Test
  void anUnknownDayOrAppointmentBreaksNothing() {
    desk.get().get("/schedule?day=someday").then().statusCode(200);
    desk.get().get("/schedule/999999999").then().statusCode(404);
    desk.get().get("/schedule/abc").then().statusCode(404);
  }

  private AppointmentView only() {
    return appointments.ofDay(place, LocalDate.of(2026, 3, 4)).get(0);
  }

  private Response move(AppointmentView view, String time) {
    return desk.form()
        .formParam("version", view.version())
        .formParam("day", "2026-03-04")
        .formParam("time", time)
        .formParam("minutes", "30")
        .post("/schedule/" + view.id() + "/move");
  }

  private Response book(Long patient, String time, String unit) {
    return desk.form()
        .formParam("chart", patients.byId(patient).chartNumber())
        .formParam("day", "2026-03-04")
        .formParam("time", time)
        .formParam("minutes", "30")
        .formParam("room", locations.rooms(place).get(0).id())
        .formParam("channels", unit.isEmpty() ? "0" : "2")
        .formParam("unit", unit)
        .post("/schedule");
  }
}
