package clinic.stimshelf.desk;

import static clinic.stimshelf.desk.DeskScene.DUE;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.lessThan;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.testing.Crew;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Who was called, and what was said, stands beside the late loan. */
@QuarkusTest
class ContactLogTest {
  @Inject DeskScene scene;

  @Test
  void aCallStandsAsLastContactBesideTheLateLoan() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Lent lent = scene.lent(clinic);
    scene.at(DUE.plusDays(2), "09:00");
    clinic
        .today()
        .body("late[0].lastContact", nullValue())
        .body("late[0].nextStep", equalTo("A call about the return"))
        .body("late[0].nextStepOn", equalTo(DUE.plusDays(5).toString()));
    Crew.Browser browser = Crew.signIn(clinic.desk());
    browser
        .form()
        .formParam("outcome", "voicemail")
        .post("/calls/" + lent.loan())
        .then()
        .statusCode(303)
        .header("Location", containsString("/front-desk?done=contact"));
    scene.at(DUE.plusDays(2), "10:00");
    clinic
        .post(
            clinic.desk(),
            "/api/contacts",
            Map.of(
                "loanId",
                lent.loan(),
                "outcome",
                "reached",
                "promisedOn",
                DUE.plusDays(3).toString()))
        .statusCode(201)
        .body("patientId", equalTo(String.valueOf(lent.asked().patient())));
    clinic
        .today()
        .body("late[0].lastContact.outcome", equalTo("reached"))
        .body("late[0].lastContact.promisedOn", equalTo(DUE.plusDays(3).toString()));
    clinic
        .desk()
        .script()
        .get("/api/contacts?loanId=" + lent.loan())
        .then()
        .statusCode(200)
        .body("items", hasSize(2))
        .body("items[0].outcome", equalTo("reached"));
    Crew.signIn(clinic.desk())
        .get()
        .get("/front-desk?done=contact")
        .then()
        .body(containsString("The call is logged."))
        .body(containsString("promised for"));
  }

  @Test
  void everythingWrongIsSaidAtOnceAndWhatWasTypedStays() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Lent lent = scene.lent(clinic);
    clinic
        .post(
            clinic.desk(),
            "/api/contacts",
            Map.of("loanId", lent.loan(), "promisedOn", "2026-03-01", "note", "x".repeat(501)))
        .statusCode(422)
        .body("errors.field", hasItem("outcome"))
        .body("errors.field", hasItem("promisedOn"))
        .body("errors.field", hasItem("note"));
    clinic.post(clinic.desk(), "/api/contacts", Map.of("outcome", "reached")).statusCode(422);
    clinic
        .post(clinic.desk(), "/api/contacts", Map.of("loanId", lent.loan(), "outcome", "shouted"))
        .statusCode(400);
    Crew.signIn(clinic.desk())
        .form()
        .formParam("note", "nobody home <b>")
        .formParam("promisedOn", "soon")
        .post("/calls/" + lent.loan())
        .then()
        .statusCode(lessThan(500))
        .body(containsString("nobody home &lt;b&gt;"))
        .body(containsString("value=\"soon\""))
        .body(containsString("3/14/2026"));
  }

  @Test
  void anotherLocationsLoanIsNotToBeFound() {
    DeskScene.Clinic mine = scene.clinic();
    DeskScene.Lent theirs = scene.lent(scene.clinic());
    mine.post(mine.desk(), "/api/contacts", Map.of("loanId", theirs.loan(), "outcome", "reached"))
        .statusCode(404);
    Crew.signIn(mine.desk()).get().get("/calls/" + theirs.loan()).then().statusCode(404);
  }
}
