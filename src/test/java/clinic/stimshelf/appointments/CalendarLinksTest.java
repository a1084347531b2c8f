package clinic.stimshelf.appointments;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.io.StringReader;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.HashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import net.fortuna.ical4j.data.CalendarBuilder;
import net.fortuna.ical4j.model.Component;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A therapist's calendar program reads their appointments under a secret address. */
@QuarkusTest
class CalendarLinksTest {
  private static final Pattern ADDRESS = Pattern.compile("/calendar/([A-Za-z0-9_-]+)\\.ics");

  @Inject Crew crew;
  @Inject Folk folk;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject Staff staff;
  @Inject MutableClock clock;
  @Inject EntityManager em;
  private Long place;
  private Member desk;
  private Member pt;

  @BeforeEach
  void aDay() {
    clock.set(Instant.parse("2026-03-04T12:00:00Z"));
    place = crew.location(Crew.unique("Cal"));
    locations.addRoom(place, "Gym", 4);
    desk = crew.member(Roles.FRONT_DESK, Credential.NONE, place);
    pt = crew.withPassword(Roles.THERAPIST, Credential.PT, place);
  }

  @Test
  void theFeedHoldsInitialsAndRoomAndNothingElseOfAPatient() throws Exception {
    Long patient = folk.patient(place);
    booked(patient, "2026-03-05T09:00:00-05:00");
    Response feed = read(link());
    feed.then().statusCode(200).contentType("text/calendar;charset=UTF-8");
    Component event = event(feed);
    assertThat(value(event, "SUMMARY")).isEqualTo("AL");
    assertThat(value(event, "DTSTART")).isEqualTo("20260305T140000Z");
    assertThat(value(event, "LOCATION")).startsWith("Gym, Location Cal");
    assertThat(feed.asString())
        .doesNotContain("Lindqvist", patients.byId(patient).chartNumber(), "quadriceps");
  }

  @Test
  void aMovedOrCancelledAppointmentKeepsItsIdentifierAndRaisesItsSequence() throws Exception {
    String id = booked(folk.patient(place), "2026-03-05T09:00:00-05:00");
    String secret = link();
    Component first = event(read(secret));
    clock.advance(Duration.ofMinutes(5));
    desk.script()
        .contentType(ContentType.JSON)
        .body(entry(null, "2026-03-06T10:00:00-05:00"))
        .put("/api/appointments/" + id)
        .then()
        .statusCode(200);
    Component moved = event(read(secret));
    assertThat(value(moved, "UID")).isEqualTo(value(first, "UID"));
    assertThat(value(moved, "DTSTART")).isEqualTo("20260306T150000Z");
    assertThat(number(moved)).isGreaterThan(number(first));
    assertThat(value(moved, "DTSTAMP")).isEqualTo("20260304T120500Z");
    desk.script().delete("/api/appointments/" + id + "?reason=ill").then().statusCode(200);
    Component cancelled = event(read(secret));
    assertThat(value(cancelled, "UID")).isEqualTo(value(first, "UID"));
    assertThat(value(cancelled, "STATUS")).isEqualTo("CANCELLED");
    assertThat(number(cancelled)).isGreaterThan(number(moved));
  }

  /** RFC 5546, 3.2.5 and 2.1.4: the same UID, STATUS:CANCELLED and a higher SEQUENCE. */
  @Test
  void whoNoLongerHasAnAppointmentIsToldItIsCancelledAndHasItAgainWhenItComesBack()
      throws Exception {
    String id = booked(folk.patient(place), "2026-03-05T09:00:00-05:00");
    String secret = link();
    Component first = event(read(secret));
    clock.advance(Duration.ofMinutes(5));
    Member colleague = crew.withPassword(Roles.THERAPIST, Credential.PT, place);
    String theirs = link(colleague);
    move(id, "2026-03-06T10:00:00-05:00", colleague.id());
    Component gone = event(read(secret));
    assertThat(value(gone, "UID")).isEqualTo(value(first, "UID"));
    assertThat(value(gone, "STATUS")).isEqualTo("CANCELLED");
    assertThat(value(gone, "DTSTART")).isEqualTo("20260305T140000Z");
    assertThat(value(gone, "SUMMARY")).isEqualTo("With another therapist");
    assertThat(number(gone)).isGreaterThan(number(first));
    assertThat(value(gone, "DTSTAMP")).isEqualTo("20260304T120500Z");
    assertThat(value(event(read(theirs)), "STATUS")).isEqualTo("CONFIRMED");
    assertThat(value(event(read(theirs)), "DTSTART")).isEqualTo("20260306T150000Z");
    move(id, "2026-03-06T10:00:00-05:00", pt.id());
    assertThat(read(secret).asString().split("BEGIN:VEVENT", -1)).hasSize(2);
    assertThat(value(event(read(secret)), "STATUS")).isEqualTo("CONFIRMED");
    assertThat(number(event(read(secret)))).isGreaterThan(number(gone));
    assertThat(value(event(read(theirs)), "STATUS")).isEqualTo("CANCELLED");
    move(id, "2026-03-06T11:00:00-05:00", colleague.id());
    assertThat(value(event(read(secret)), "DTSTART")).isEqualTo("20260306T150000Z");
    assertThat(value(event(read(secret)), "STATUS")).isEqualTo("CANCELLED");
  }

  @Test
  void theSequenceStaysWhenOnlyTheNoteChangesOrThePatientArrives() throws Exception {
    String id = booked(folk.patient(place), "2026-03-05T09:00:00-05:00");
    String secret = link();
    int before = number(event(read(secret)));
    Map<String, Object> noted = entry(null, "2026-03-05T09:00:00-05:00");
    noted.put("note", "Brings a friend.");
    noted.put("room", null);
    desk.script()
        .contentType(ContentType.JSON)
        .body(noted)
        .put("/api/appointments/" + id)
        .then()
        .statusCode(200);
    assertThat(event(read(secret)).getProperty("LOCATION").orElseThrow().getValue())
        .doesNotContain("Gym");
    assertThat(number(event(read(secret)))).isEqualTo(before);
    clock.set(Instant.parse("2026-03-05T13:55:00Z"));
    desk.script()
        .contentType(ContentType.JSON)
        .body(Map.of())
        .post("/api/appointments/" + id + "/arrival")
        .then()
        .statusCode(200);
    assertThat(number(event(read(secret)))).isEqualTo(before);
  }

  private void move(String id, String at, Long therapist) {
    Map<String, Object> entry = entry(null, at);
    entry.put("therapistId", String.valueOf(therapist));
    desk.script()
        .contentType(ContentType.JSON)
        .body(entry)
        .put("/api/appointments/" + id)
        .then()
        .statusCode(200);
  }

  @Test
  void whatDidNotChangeIsNotSentAgain() {
    booked(folk.patient(place), "2026-03-05T09:00:00-05:00");
    String secret = link();
    String tag = read(secret).header("ETag");
    clock.advance(Duration.ofMinutes(5));
    given().header("If-None-Match", tag).get("/calendar/" + secret + ".ics").then().statusCode(304);
    booked(folk.patient(place), "2026-03-05T11:00:00-05:00");
    given()
        .header("If-None-Match", tag)
        .get("/calendar/" + secret + ".ics")
        .then()
        .statusCode(200)
        .header("Cache-Control", "private, no-cache");
  }

  @Test
  void aLinkEndsWhenItIsRevokedOrTheAccountIs() {
    String one = link();
    String other = link();
    Crew.Browser browser = Crew.signIn(pt);
    Matcher revoke =
        Pattern.compile("/calendar-links/(\\d+)/revocation")
            .matcher(browser.get().get("/calendar-links").asString());
    assertThat(revoke.find()).isTrue();
    // The newest stands first. Another person's link is none of theirs.
    Member colleague = crew.withPassword(Roles.THERAPIST, Credential.PT, place);
    Crew.signIn(colleague).form().post(revoke.group()).then().statusCode(404);
    read(other).then().statusCode(200);
    browser.form().post(revoke.group()).then().statusCode(303);
    read(other).then().statusCode(404);
    read(one).then().statusCode(200);
    crew.as(crew.member(Roles.MANAGER, Credential.NONE, place).id(), () -> staff.disable(pt.id()));
    read(one).then().statusCode(404);
    read("nothing").then().statusCode(404);
  }

  @Test
  void onlyTheHashOfA256BitSecretIsKept() {
    String secret = link();
    assertThat(secret).hasSize(43);
    assertThat(
            em.createNativeQuery("select secret_hash from calendar_link where staff_id = ?1")
                .setParameter(1, pt.id())
                .getSingleResult()
                .toString())
        .hasSize(64)
        .isNotEqualTo(secret);
  }

  @Test
  void aLinkThatIsReadAllTheTimeIsSlowedDownAndNoOther() {
    String busy = link();
    String calm = link();
    for (int i = 0; i < CalendarReads.MOST; i++) {
      read(busy).then().statusCode(200);
    }
    read(busy).then().statusCode(429).header("Retry-After", "600");
    read(calm).then().statusCode(200);
    clock.advance(CalendarReads.WINDOW);
    read(busy).then().statusCode(200);
  }

  @Test
  void aLinkWithoutWordsIsRefusedAndSaysWhatToDo() {
    Crew.signIn(pt)
        .form()
        .formParam("words", " ")
        .post("/calendar-links")
        .then()
        .statusCode(422)
        .body(containsString("such as “my phone”"));
  }

  private String link() {
    return link(pt);
  }

  private static String link(Member therapist) {
    String page =
        Crew.signIn(therapist)
            .form()
            .formParam("words", "my phone")
            .post("/calendar-links")
            .then()
            .statusCode(200)
            .extract()
            .asString();
    Matcher address = ADDRESS.matcher(page);
    assertThat(address.find()).isTrue();
    return address.group(1);
  }

  private static Response read(String secret) {
    return given().get("/calendar/" + secret + ".ics");
  }

  private String booked(Long patient, String at) {
    return desk.script()
        .contentType(ContentType.JSON)
        .body(entry(patient, at))
        .post("/api/appointments")
        .then()
        .statusCode(201)
        .extract()
        .path("id");
  }

  private Map<String, Object> entry(Long patient, String at) {
    Map<String, Object> entry = new HashMap<>();
    if (patient != null) {
      entry.put("patientId", String.valueOf(patient));
    }
    entry.put("therapistId", String.valueOf(pt.id()));
    entry.put("room", "Gym");
    entry.put("startsAt", at);
    entry.put("endsAt", OffsetDateTime.parse(at).plusMinutes(30).toString());
    return entry;
  }

  private static Component event(Response feed) throws Exception {
    return new CalendarBuilder()
        .build(new StringReader(feed.asString()))
        .getComponents(Component.VEVENT)
        .get(0);
  }

  private static String value(Component event, String name) {
    return event.getProperty(name).orElseThrow().getValue();
  }

  private static int number(Component event) {
    return Integer.parseInt(value(event, "SEQUENCE"));
  }
}
