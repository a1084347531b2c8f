package clinic.stimshelf.loans;

import static clinic.stimshelf.loans.LendingScene.TUESDAY;
import static clinic.stimshelf.loans.LendingScene.get;
import static clinic.stimshelf.loans.LendingScene.post;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.location.ClosureView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.ValidatableResponse;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * A request hears the first open day on which a unit is sure enough. Without any history seven of
 * ten units are expected on their due day, nine three days later, all after two weeks.
 */
@QuarkusTest
class SureByDayTest {
  @Inject LendingScene lending;
  @Inject Crew crew;
  @Inject Locations locations;

  @Test
  void aUnitOnTheShelfIsSureOnTheWishedDay() {
    LendingScene.Scene clinic = lending.open();
    lending.unit(clinic);
    String request = asked(clinic);
    list(clinic, request)
        .body("sureByOn", equalTo(TUESDAY.plusDays(1).toString()))
        .body("chanceOnWishedDay", equalTo(1f));
  }

  @Test
  void aUnitAtAHomeIsSureOnceSoManyWouldBeBackAndReady() {
    LendingScene.Scene clinic = lending.open();
    lent(clinic);
    String request = asked(clinic);
    // Due Wed Apr 15. Nine of ten are back by Sat Apr 18, ready on Sun Apr 19; the clinic opens on
    // Mon.
    list(clinic, request)
        .body("sureByOn", equalTo("2026-04-20"))
        .body("chanceOnWishedDay", equalTo(0f));
  }

  @Test
  void theNextInLineWaitsForTheNextUnit() {
    LendingScene.Scene clinic = lending.open();
    lending.unit(clinic);
    String first = asked(clinic);
    lending.later(1);
    String second = asked(clinic);
    list(clinic, first).body("ahead", equalTo(0));
    list(clinic, second)
        .body("ahead", equalTo(1))
        .body("sureByOn", nullValue())
        .body("sureByReason", containsString("More people wait"));
  }

  @Test
  void aUnitOutOfServiceIsNotCountedOnAndItsRepairIsNamed() {
    LendingScene.Scene clinic = lending.open();
    String unit = lending.unit(clinic);
    post(clinic.manager(), "/api/units/" + unit + "/out-of-service", Map.of("reason", "dark"))
        .statusCode(200);
    String request = asked(clinic);
    list(clinic, request)
        .body("sureByOn", nullValue())
        .body("sureByReason", containsString("More people wait"))
        .body("chanceOnWishedDay", equalTo(0f));
    Crew.Member desk = crew.withPassword(Roles.FRONT_DESK, Credential.NONE, clinic.location());
    Crew.signIn(desk)
        .get()
        .get("/requests/" + request)
        .then()
        .statusCode(200)
        .body(containsString("Get " + unit + " back into service."));
  }

  @Test
  void aKindThatNobodyHereOwnsIsSaid() {
    LendingScene.Scene clinic = lending.open();
    String request = asked(clinic);
    list(clinic, request)
        .body("sureByOn", nullValue())
        .body("sureByReason", containsString("No unit here has 2 channels"));
  }

  @Test
  void aLateUnitIsToBeCalledAbout() {
    LendingScene.Scene clinic = lending.open();
    lent(clinic);
    String request = asked(clinic);
    lending.at(LocalDate.parse("2026-04-17"), "09:00");
    Crew.Member desk = crew.withPassword(Roles.FRONT_DESK, Credential.NONE, clinic.location());
    Crew.signIn(desk)
        .get()
        .get("/requests/" + request)
        .then()
        .statusCode(200)
        .body(containsString("late, was due Wed Apr 15"))
        .body(containsString("What would bring it forward"));
  }

  /** Nothing is kept: each asking reckons with what stands then. */
  @Test
  void theDayMovesWithWhateverChanges() throws Exception {
    LendingScene.Scene clinic = lending.open();
    lent(clinic);
    String request = asked(clinic);
    sureBy(clinic, request, "2026-04-20");
    // Content with seven of ten: back on Wed Apr 15, ready on Thu Apr 16.
    choose(clinic, "sureness", "0.6");
    sureBy(clinic, request, "2026-04-16");
    choose(clinic, "turnaround-days", "2");
    sureBy(clinic, request, "2026-04-17");
    close(clinic, "2026-04-17");
    sureBy(clinic, request, "2026-04-20");
    String unit = lending.unit(clinic);
    sureBy(clinic, request, TUESDAY.plusDays(1).toString());
    post(clinic.manager(), "/api/units/" + unit + "/out-of-service", Map.of("reason", "dark"));
    sureBy(clinic, request, "2026-04-20");
    String urgent =
        post(
                clinic.pt(),
                "/api/requests",
                Map.of("programId", lending.signed(clinic), "priority", 1))
            .extract()
            .path("id");
    sureBy(clinic, request, null);
    clinic.pt().script().delete("/api/requests/" + urgent).then().statusCode(200);
    sureBy(clinic, request, "2026-04-20");
    lending.at(LocalDate.parse("2026-04-17"), "09:00");
    choose(clinic, "sureness", "0.9");
    // Two days late already: of the ten only the last, which took two weeks, is like it.
    sureBy(clinic, request, "2026-05-01");
  }

  @Test
  void eachStepTellsTheDayItWouldBring() {
    LendingScene.Scene clinic = lending.open();
    lent(clinic);
    String request = asked(clinic);
    lending.at(LocalDate.parse("2026-04-10"), "09:00");
    page(clinic, request)
        .body(containsString("comes back on Wed Apr 15 as agreed."))
        .body(containsString("<td>Thu Apr 16</td>"));
    lending.at(LocalDate.parse("2026-04-17"), "09:00");
    page(clinic, request)
        .body(containsString("Call about "))
        .body(containsString("<td>Mon Apr 20</td>"));
  }

  @Test
  void aUnitThatTheOtherLocationCanSpareIsOfferedToWhoWorksThereToo() {
    LendingScene.Scene clinic = lending.open();
    String request = asked(clinic);
    LendingScene.Scene other = lending.beside(clinic);
    String unit = lending.unit(other);
    page(clinic, request).body(not(containsString(unit)));
    page(clinic, request, clinic.location(), other.location())
        .body(containsString("Move " + unit + " over: it is ready at Location " + other.code()))
        .body(containsString("<td>Wed Mar 4</td>"));
    // There somebody waits for it as well.
    asked(other);
    page(clinic, request, clinic.location(), other.location())
        .body(not(containsString("Move " + unit)));
    // A unit of their own is no step of theirs.
    sureBy(clinic, request, null);
  }

  private ValidatableResponse page(LendingScene.Scene clinic, String request) {
    return page(clinic, request, clinic.location());
  }

  private ValidatableResponse page(LendingScene.Scene clinic, String request, Long... worksAt) {
    Crew.Member desk = crew.withPassword(Roles.FRONT_DESK, Credential.NONE, worksAt);
    return Crew.signIn(desk).get().get("/requests/" + request).then().statusCode(200);
  }

  private static void sureBy(LendingScene.Scene clinic, String request, String day) {
    list(clinic, request).body("sureByOn", equalTo(day));
  }

  private void choose(LendingScene.Scene clinic, String setting, String value) throws Exception {
    lending.call(
        () -> {
          locations.choose(clinic.location(), Map.of(setting, value));
          return null;
        });
  }

  private void close(LendingScene.Scene clinic, String day) throws Exception {
    lending.call(
        () -> {
          locations.close(
              clinic.location(), new ClosureView(LocalDate.parse(day), null, null, "painters"));
          return null;
        });
  }

  private static ValidatableResponse list(LendingScene.Scene clinic, String request) {
    return get(clinic.desk(), "/api/requests?location=" + clinic.code())
        .rootPath("items.find { it.id == '" + request + "' }");
  }

  private void lent(LendingScene.Scene clinic) {
    lending.lent(clinic, lending.signed(clinic), lending.unit(clinic));
  }

  private String asked(LendingScene.Scene clinic) {
    return post(clinic.pt(), "/api/requests", Map.of("programId", lending.signed(clinic)))
        .statusCode(200)
        .extract()
        .path("id");
  }
}
