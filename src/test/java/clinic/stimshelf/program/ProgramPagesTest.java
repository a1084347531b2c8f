package clinic.stimshelf.program;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.people.Side;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.specification.RequestSpecification;
import jakarta.inject.Inject;
import org.junit.jupiter.api.Test;

@QuarkusTest
class ProgramPagesTest {
  @Inject Desk desk;
  @Inject Crew crew;
  @Inject Folk folk;

  private record Room(Crew.Browser browser, Long patient, String pad) {

    RequestSpecification form() {
      return browser
          .form()
          .formParam("patient", patient)
          .formParam("template", "knee-replacement-early");
    }

    /** The values that the template fills in, as the page sends them back. */
    RequestSpecification filled() {
      return form()
          .formParam("frequencyHz", "50")
          .formParam("frequencyKind", "pulses")
          .formParam("pulseWidthUs", "250")
          .formParam("onSeconds", "15")
          .formParam("offSeconds", "45")
          .formParam("rampUpSeconds", "3")
          .formParam("rampInsideOn", "yes")
          .formParam("contractions", "15")
          .formParam("sessionsPerDay", "2")
          .formParam("daysPerWeek", "7")
          .formParam("weeks", "6")
          .formParam("intensity", "Strongest contraction that is still tolerable")
          .formParam("muscle", "quadriceps");
    }

    /** What the therapist adds: eight inputs, besides the template and the button. */
    RequestSpecification complete(String startsOn) {
      return filled()
          .formParam("side", "left")
          .formParam("channels", "2")
          .formParam("startsOn", startsOn)
          .formParam("pads", pad)
          .formParam("perSession", "4")
          .formParam("dueKind", "drop-off")
          .formParam("setting", "Mode P3")
          .formParam("reviewed", "yes");
    }
  }

  private Room room() {
    Long location = crew.location(Crew.unique("pages"));
    Crew.Member pt = crew.withPassword(Roles.THERAPIST, Credential.PT, location);
    Long patient = folk.patient(location);
    folk.screened(patient, "quadriceps", Side.LEFT, pt);
    return new Room(Crew.signIn(pt), patient, desk.padType(4, 20, 30));
  }

  @Test
  void choosingATemplateFillsItsValuesWithTheirSource() {
    Room room = room();
    room.browser()
        .get()
        .get("/programs/new?patient=" + room.patient())
        .then()
        .statusCode(200)
        .body(containsString("template=knee-replacement-early"));
    room.browser()
        .get()
        .get("/programs/new?patient=" + room.patient() + "&template=knee-replacement-early")
        .then()
        .statusCode(200)
        .body(containsString("value=\"45\""))
        .body(containsString("Stevens-Lapsley"))
        .body(containsString("from memory, look it up"))
        .body(containsString("3 s ramp up, 15 s on with the ramps, 45 s rest, 15 times"))
        .body(containsString("local rules and the licensed therapist"));
  }

  @Test
  void aCompleteTemplateIsSignedOnOnePageWithAtMostTenInputs() {
    Room room = room();
    String start = java.time.LocalDate.now(Desk.ZONE).toString();
    String page =
        room.complete(start)
            .formParam("do", "sign")
            .post("/programs/new")
            .then()
            .statusCode(303)
            .extract()
            .header("Location");
    room.browser()
        .get()
        .get(page)
        .then()
        .statusCode(200)
        .body(containsString("Version 1 signed by"))
        .body(containsString("First supervised session"))
        .body(containsString("84 sessions"))
        .body(containsString("new pads"));
    int template = 1;
    int typed = 8;
    int button = 1;
    assertThat(template + typed + button).isLessThanOrEqualTo(10);
  }

  @Test
  void whatWasTypedComesBackWithEveryReason() {
    Room room = room();
    room.filled()
        .formParam("side", "right")
        .formParam("channels", "two")
        .formParam("startsOn", "yesterday")
        .formParam("setting", "Mode <b>P3</b>")
        .formParam("do", "sign")
        .post("/programs/new")
        .then()
        .statusCode(422)
        .body(containsString("value=\"two\""))
        .body(containsString("value=\"yesterday\""))
        .body(containsString("Mode &lt;b&gt;P3&lt;/b&gt;"))
        .body(containsString("aria-invalid=\"true\""));
  }

  @Test
  void showAndPreviewSayWhatFollowsAndSaveNothing() {
    Room room = room();
    for (String path : new String[] {"/programs/new", "/programs/preview"}) {
      room.complete("2027-03-01")
          .formParam("do", "show")
          .post(path)
          .then()
          .statusCode(200)
          .body(containsString("84 sessions, 03/01/2027 to 04/11/2027"))
          .body(containsString("dropped off at the counter"))
          .body(containsString("25.0 % of the time on"));
    }
    room.browser()
        .get()
        .get("/needs-me")
        .then()
        .statusCode(200)
        .body(containsString("Nobody needs you right now"));
  }

  @Test
  void aDraftIsSignedFromItsOwnPageAndNeedsMeLeadsThere() {
    Room room = room();
    String start = java.time.LocalDate.now(Desk.ZONE).toString();
    String page =
        room.complete(start)
            .formParam("do", "draft")
            .post("/programs/new")
            .then()
            .statusCode(303)
            .extract()
            .header("Location");
    String path = page.substring(page.indexOf("/programs/"));
    room.browser()
        .get()
        .get("/needs-me")
        .then()
        .body(containsString("Drafts to sign"))
        .body(containsString("href=\"" + path + "\""));
    room.browser()
        .form()
        .formParam("version", "1")
        .post(path + "/sign")
        .then()
        .statusCode(422)
        .body(containsString("I reviewed these"));
    room.browser()
        .form()
        .formParam("version", "1")
        .formParam("reviewed", "yes")
        .post(path + "/sign")
        .then()
        .statusCode(303);
    room.browser()
        .get()
        .get("/needs-me")
        .then()
        .body(containsString("Before the unit can leave"))
        .body(not(containsString("Drafts to sign")));
    room.browser()
        .form()
        .formParam("words", "well tolerated")
        .post(path + "/first-session")
        .then()
        .statusCode(303);
    room.browser()
        .form()
        .formParam("outcome", "done")
        .formParam("source", "clinic")
        .post(path + "/sessions")
        .then()
        .statusCode(303);
    room.browser()
        .form()
        .formParam("moreWeeks", "2")
        .formParam("reason", "still weak")
        .formParam("reviewed", "yes")
        .post(path + "/extend")
        .then()
        .statusCode(303);
    room.browser()
        .get()
        .get(path)
        .then()
        .body(containsString("112 sessions"))
        .body(containsString("still weak"))
        .body(containsString("Setting on the unit"));
  }
}
