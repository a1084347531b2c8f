package clinic.stimshelf.recall;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.notNullValue;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.desk.DeskScene;
import clinic.stimshelf.desk.DeskScene.Clinic;
import clinic.stimshelf.desk.DeskScene.Lent;
import clinic.stimshelf.pads.PadSetView;
import clinic.stimshelf.pads.PadSets;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * An incident keeps how everything stood and starts the report reminder: 10 work days for US
 * outpatient treatment facilities, 21 CFR 803, from memory.
 */
@QuarkusTest
class IncidentTest {
  @Inject DeskScene scene;
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject Shelf shelf;
  @Inject PadSets sets;

  @Test
  void unitAndPadsAreHeldAndEverythingIsKeptAsItStood() {
    Clinic clinic = scene.clinic();
    Lent lent = scene.lent(clinic);
    scene.at(DeskScene.START.plusDays(1), "10:00");
    String path = "/api/incidents/" + entered(clinic, lent, "burn");
    String frozen = clinic.pt().script().get(path).then().extract().jsonPath().getString("frozen");
    assertThat(frozen)
        .contains(
            lent.unit(),
            clinic.lotNumber(),
            "Mode P3: 50 Hz, 250 µs, 15/45",
            "lead set",
            "text 1, language en",
            "version 1");
    assertThat(state(lent.unit())).isEqualTo("out-of-service");
    assertThat(heldOf(lent)).isNotEmpty().allMatch(set -> set.heldReason() != null);
    clinic
        .pt()
        .script()
        .get("/api/loans/" + lent.loan())
        .then()
        .body("state", equalTo("out"))
        .body("returnedAt", org.hamcrest.Matchers.nullValue());
    // Whatever changes afterwards, what was kept stays.
    scene.at(DeskScene.START.plusDays(2), "10:00");
    clinic
        .post(
            clinic.pt(),
            "/api/loans/" + lent.loan() + "/extension",
            Map.of("weeks", 1, "reason", "goes well"))
        .statusCode(200);
    clinic.post(clinic.desk(), "/api/loans/" + lent.loan() + "/return", Map.of()).statusCode(200);
    assertThat(clinic.pt().script().get(path).then().extract().jsonPath().getString("frozen"))
        .isEqualTo(frozen);
    assertThat(state(lent.unit())).isEqualTo("out-of-service");
  }

  private String entered(Clinic clinic, Lent lent, String kind) {
    return clinic
        .post(
            clinic.desk(),
            "/api/incidents",
            Map.of(
                "unitTag",
                lent.unit(),
                "kind",
                kind,
                "harm",
                "treated",
                "words",
                "Blister under the lower pad."))
        .statusCode(201)
        .body("patientId", equalTo(String.valueOf(lent.asked().patient())))
        .body("loanId", equalTo(lent.loan()))
        .body("frozen.takenAt", notNullValue())
        .extract()
        .path("id");
  }

  @ActivateRequestContext
  String state(String tag) {
    return shelf.byTag(tag).state().word();
  }

  @ActivateRequestContext
  List<PadSetView> heldOf(Lent lent) {
    return sets.forPatient(lent.asked().patient());
  }

  @Test
  void theReminderCountsWorkDaysFromTheDayTheClinicHeardOfIt() {
    Clinic clinic = scene.clinic();
    Lent lent = scene.lent(clinic);
    // A Monday, heard of on it; ten work days later is the Monday two weeks on.
    LocalDate monday = LocalDate.of(2026, 3, 9);
    scene.at(monday, "09:00");
    String path = "/api/incidents/" + entered(clinic, lent, "skin-reaction");
    clinic
        .pt()
        .script()
        .get(path)
        .then()
        .body("awareOn", equalTo("2026-03-09"))
        .body("reportOn", equalTo("2026-03-23"))
        .body("workDaysLeft", equalTo(10));
    scene.at(LocalDate.of(2026, 3, 25), "09:00");
    clinic.pt().script().get(path).then().body("workDaysLeft", equalTo(-2));
    clinic
        .post(
            clinic.desk(),
            "/api/incidents",
            Map.of(
                "unitTag", lent.unit(),
                "kind", "fault",
                "harm", "none",
                "words", "x",
                "happenedAt", "2026-03-24T09:00:00-04:00",
                "awareOn", "2026-03-20"))
        .statusCode(422)
        .body("errors.field", hasItem("awareOn"));
  }

  @Test
  void itIsClosedWhenOfEverybodySomethingIsSaid() {
    Clinic clinic = scene.clinic();
    Member manager = crew.withPassword(Roles.MANAGER, Credential.NONE, clinic.location());
    Lent lent = scene.lent(clinic);
    String path = "/api/incidents/" + entered(clinic, lent, "burn");
    clinic
        .post(manager, path + "/closure", Map.of("words", ""))
        .statusCode(422)
        .body("errors.findAll { it.field == 'told' }", hasSize(5));
    clinic
        .post(clinic.desk(), path + "/told", Map.of("whom", "maker", "told", true))
        .statusCode(422)
        .body("errors.field", hasItem("spokeWith"));
    clinic
        .post(clinic.desk(), path + "/told", Map.of("whom", "regulator", "told", false))
        .statusCode(422)
        .body("errors.field", hasItem("words"));
    for (String whom : List.of("patient", "prescriber", "manager", "maker")) {
      clinic
          .post(
              clinic.desk(),
              path + "/told",
              Map.of("whom", whom, "told", true, "spokeWith", "by phone", "reference", "R-1"))
          .statusCode(200);
    }
    clinic
        .post(
            clinic.pt(),
            path + "/told",
            Map.of("whom", "regulator", "told", false, "words", "It passed by itself."))
        .statusCode(200)
        .body("untold", hasSize(0));
    clinic.post(clinic.pt(), "/api/loans/" + lent.loan() + "/return", Map.of()).statusCode(200);
    clinic
        .post(clinic.pt(), "/api/units/" + lent.unit() + "/to-inspection", Map.of())
        .statusCode(422)
        .body("errors[0].message", containsString("Incident"));
    clinic
        .post(manager, path + "/closure", Map.of("words", "Pads had dried out."))
        .statusCode(200)
        .body("state", equalTo("closed"));
    clinic
        .post(clinic.pt(), "/api/units/" + lent.unit() + "/to-inspection", Map.of())
        .statusCode(200);
  }

  @Test
  void whatDoesNotFitIsSaidAtOnceAndOtherLocationsSeeNothing() {
    Clinic clinic = scene.clinic();
    Lent lent = scene.lent(clinic);
    clinic
        .post(clinic.desk(), "/api/incidents", Map.of())
        .statusCode(422)
        .body("errors.field", hasItem("kind"))
        .body("errors.field", hasItem("harm"))
        .body("errors.field", hasItem("words"))
        .body("errors.field", hasItem("unitTag"));
    Long other = folk.patient(clinic.location());
    String chart =
        clinic.pt().script().get("/api/patients/" + other).then().extract().path("chartNumber");
    clinic
        .post(
            clinic.desk(),
            "/api/incidents",
            Map.of(
                "unitTag", lent.unit(),
                "chartNumber", chart,
                "kind", "burn",
                "harm", "none",
                "words", "x"))
        .statusCode(422)
        .body("errors[0].message", containsString("another patient had unit"));
    String id = entered(clinic, lent, "other");
    Clinic stranger = scene.clinic();
    stranger.desk().script().get("/api/incidents/" + id).then().statusCode(404);
    stranger.desk().script().get("/api/incidents").then().body("items", hasSize(0));
  }

  @Test
  void thePagesShowTheReminderWhereOpenMattersStand() {
    Clinic clinic = scene.clinic();
    Lent lent = scene.lent(clinic);
    Crew.Browser browser = Crew.signIn(clinic.desk());
    browser
        .form()
        .formParam("unit", lent.unit())
        .formParam("words", "it <sparked>")
        .post("/incidents/new")
        .then()
        .statusCode(422)
        .body(containsString("it &lt;sparked&gt;"))
        .body(containsString("Was somebody harmed?"));
    String page =
        browser
            .form()
            .formParam("unit", lent.unit())
            .formParam("kind", "fault")
            .formParam("harm", "none")
            .formParam("words", "It sparked.")
            .post("/incidents/new")
            .then()
            .statusCode(303)
            .extract()
            .header("Location")
            .replaceAll("\\?.*", "")
            .replaceAll("^https?://[^/]*", "");
    browser
        .get()
        .get(page)
        .then()
        .body(containsString("10 work days left"))
        .body(containsString("not legal advice"))
        .body(containsString("Mode P3"));
    browser.get().get("/front-desk").then().body(containsString("Report reminder Wed Mar 18"));
    browser
        .form()
        .formParam("whom", "maker")
        .formParam("told", "no")
        .post(page + "/told")
        .then()
        .statusCode(422)
        .body(containsString("The reason for not telling them is missing."));
    Crew.signIn(clinic.pt()).get().get("/needs-me").then().body(containsString(page));
    browser.get().get("/loans/" + lent.loan()).then().body(containsString("Held, not to be used."));
  }
}
