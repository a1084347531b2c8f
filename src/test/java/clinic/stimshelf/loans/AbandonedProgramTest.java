package clinic.stimshelf.loans;

import static clinic.stimshelf.loans.LendingScene.TUESDAY;
import static clinic.stimshelf.loans.LendingScene.get;
import static clinic.stimshelf.loans.LendingScene.post;
import static org.hamcrest.Matchers.allOf;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.not;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.ValidatableResponse;
import jakarta.inject.Inject;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** A patient who neither logs nor comes: asked about, called, ended, counted. */
@QuarkusTest
class AbandonedProgramTest {
  @Inject LendingScene lending;
  @Inject Crew crew;

  @Test
  void silenceIsAskedAboutAndEndsInOneStepAndIsCounted() {
    LendingScene.Scene scene = lending.open();
    String program = lending.signed(scene);
    String loan = lending.lent(scene, program, lending.unit(scene));
    lending.at(TUESDAY.plusDays(6), "10:00");
    needsMe(scene).body(not(containsString("Given up?")));
    lending.at(TUESDAY.plusDays(17), "10:00");
    needsMe(scene)
        .body(containsString("Given up?"))
        .body(containsString("No session was ever told of"))
        .body(containsString("Nobody has called yet."))
        .body(containsString("href=\"/calls/" + loan + "\""))
        .body(not(containsString("Behind plan")));
    post(scene.pt(), "/api/contacts", Map.of("loanId", loan, "outcome", "voicemail"));
    needsMe(scene).body(containsString("left a voicemail"));
    Crew.signIn(person(scene, Roles.THERAPIST))
        .form()
        .formParam("abandoned", "yes")
        .formParam("reason", "Does not answer, lives elsewhere now")
        .post("/programs/" + program + "/stop")
        .then()
        .statusCode(303);
    get(scene.pt(), "/api/programs/" + program)
        .body("state", equalTo("stopped"))
        .body("abandoned", equalTo(true));
    needsMe(scene).body(not(containsString("Given up?")));
    Crew.signIn(person(scene, Roles.THERAPIST))
        .get()
        .get("/programs/" + program)
        .then()
        .body(containsString("Ended as abandoned on"))
        .body(containsString("/loans/" + loan));
    Crew.signIn(person(scene, Roles.MANAGER))
        .get()
        .get("/review?span=days&from=" + TUESDAY + "&to=" + TUESDAY.plusDays(30))
        .then()
        .statusCode(200)
        .body(
            allOf(
                containsString("<b>1 of 1</b> programs that ended were abandoned (100 %)"),
                containsString("no session known to be done"),
                containsString("Does not answer, lives elsewhere now")));
  }

  @Test
  void aSessionToldOfKeepsAProgramOffTheQuestion() {
    LendingScene.Scene scene = lending.open();
    String program = lending.signed(scene);
    lending.lent(scene, program, lending.unit(scene));
    lending.at(TUESDAY.plusDays(17), "10:00");
    post(
            scene.pt(),
            "/api/programs/" + program + "/sessions",
            Map.of("on", TUESDAY.plusDays(8).toString(), "outcome", "done", "source", "diary"))
        .statusCode(201);
    needsMe(scene).body(not(containsString("Given up?"))).body(containsString("Not logged"));
  }

  @Test
  void aDraftCannotBeAbandoned() {
    LendingScene.Scene scene = lending.open();
    String signed = lending.signed(scene);
    Long patient =
        Long.valueOf(get(scene.pt(), "/api/programs/" + signed).extract().path("patientId"));
    String draft =
        post(scene.pt(), "/api/programs", lending.body(scene, patient)).extract().path("id");
    post(
            scene.pt(),
            "/api/programs/" + draft + "/stop",
            Map.of("reason", "never came", "abandoned", true))
        .statusCode(422)
        .body("errors.field", hasItem("abandoned"));
  }

  private ValidatableResponse needsMe(LendingScene.Scene scene) {
    return Crew.signIn(person(scene, Roles.THERAPIST))
        .get()
        .get("/needs-me?whose=everybody")
        .then()
        .statusCode(200);
  }

  private Crew.Member person(LendingScene.Scene scene, String role) {
    return crew.withPassword(
        role, role.equals(Roles.THERAPIST) ? Credential.PT : Credential.NONE, scene.location());
  }
}
