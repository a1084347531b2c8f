package clinic.stimshelf.remind;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import jakarta.inject.Inject;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Whoever meets the unit or its patient reads that the unit still holds the setting before. */
@QuarkusTest
class ANewVersionIsSetOnTheUnitTest {
  @Inject RemindScene scenes;
  @Inject LendingScene lending;
  @Inject Crew crew;
  @Inject PatientLinks links;

  @Test
  void the_last_confirmed_setting_stays_valid_until_the_new_one_is_confirmed() {
    RemindScene.Lent lent = scenes.lent();
    Crew.Member pt = lent.scene().pt();
    String loan = "/api/loans/" + lent.loanId();
    String page = crew.as(lent.scene().desk().id(), () -> links.path(lent.loanId()));
    LendingScene.get(pt, loan).body("settingGap", nullValue());
    lending.at(LendingScene.TUESDAY.plusDays(8), "10:00");
    LendingScene.post(pt, loan + "/extension", Map.of("weeks", 2, "reason", "still weak"))
        .statusCode(200);
    LendingScene.get(pt, loan)
        .body("settingGap.version", equalTo(2))
        .body("settingGap.holds", equalTo(1));
    RestAssured.given().get(page).then().body(containsString("Bring the unit to your next visit"));
    Crew.Browser desk =
        Crew.signIn(crew.withPassword(Roles.FRONT_DESK, Credential.NONE, lent.scene().location()));
    desk.get()
        .get("/front-desk")
        .then()
        .body(containsString("One unit at home is to be set anew"))
        .body(containsString("no visit is booked"));
    for (String where : new String[] {"/loans/", "/check-in/"}) {
      desk.get()
          .get(where + lent.loanId())
          .then()
          .statusCode(200)
          .body(containsString("Version 2 is not set on the unit yet."))
          .body(containsString("version 1 stays valid"));
    }
    Map<String, Object> now = LendingScene.get(pt, loan).extract().<Map<String, Object>>path("");
    LendingScene.post(
            pt,
            "/api/programs/" + now.get("programId") + "/setting",
            Map.of("unitTag", now.get("unitTag"), "matches", true))
        .statusCode(200);
    LendingScene.get(pt, loan).body("settingGap", nullValue());
    RestAssured.given()
        .get(page)
        .then()
        .body(not(containsString("Bring the unit to your next visit")));
    desk.get().get("/front-desk").then().body(not(containsString("to be set anew")));
  }
}
