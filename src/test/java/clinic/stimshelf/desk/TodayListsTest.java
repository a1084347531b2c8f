package clinic.stimshelf.desk;

import static clinic.stimshelf.desk.DeskScene.START;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.empty;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.testing.Crew;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;

/** What stands in each of the lists. */
@QuarkusTest
class TodayListsTest {
  @Inject DeskScene scene;

  @Test
  void whoeverWaitsIsProposedAKitOfTheirOwnAndToldWhatIsMissing() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Asked first = scene.asked(clinic);
    scene.asked(clinic);
    clinic
        .today()
        .body("goingOut", hasSize(2))
        .body("goingOut[0].unitTag", nullValue())
        .body("goingOut[0].missing", hasItem("No suitable kit is ready."));
    String unit = scene.ready(clinic).tag();
    clinic
        .today()
        .body("goingOut[0].requestId", equalTo(first.request()))
        .body("goingOut[0].chartNumber", equalTo(first.chart()))
        .body("goingOut[0].unitTag", equalTo(unit))
        .body("goingOut[0].missing", hasItem("The setting is not confirmed on the unit."))
        .body("goingOut[1].unitTag", nullValue());
    scene.confirmSetting(clinic, first, unit);
    clinic.today().body("goingOut[0].missing", empty()).body("ready.unitTag", hasItem(unit));
  }

  @Test
  void aUnitSetAsideForAnotherIsProposedToNobodyElse() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Asked first = scene.asked(clinic);
    DeskScene.Asked second = scene.asked(clinic);
    String unit = scene.ready(clinic).tag();
    clinic
        .post(clinic.desk(), "/api/requests/" + second.request() + "/unit", Map.of("unitTag", unit))
        .statusCode(200);
    JsonPath today = clinic.today().extract().jsonPath();
    Map<String, String> tags = new java.util.HashMap<>();
    List<Map<String, Object>> going = today.getList("goingOut");
    going.forEach(one -> tags.put((String) one.get("requestId"), (String) one.get("unitTag")));
    Assertions.assertThat(tags)
        .containsEntry(first.request(), null)
        .containsEntry(second.request(), unit);
  }

  @Test
  void theShelfsChoresStandInTheirLists() {
    DeskScene.Clinic clinic = scene.clinic();
    String inspect = scene.toInspect(clinic).tag();
    DeskScene.Lent lent = scene.lent(clinic);
    clinic.post(clinic.desk(), "/api/loans/" + lent.loan() + "/return", Map.of()).statusCode(200);
    clinic
        .today()
        .body("toInspect.unitTag", equalTo(List.of(inspect)))
        .body("toWipe.unitTag", equalTo(List.of(lent.unit())))
        .body("toWipe[0].minutesLeft", nullValue())
        .body("toWipe[0].state", equalTo("to-wipe"))
        .body("ready", empty())
        .body("goingOut", empty())
        .body("appointments", empty());
  }

  @Test
  void thePageShowsTheSameInWordsWithNamesThatCanBeBlanked() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Asked asked = scene.asked(clinic);
    String unit = scene.ready(clinic).tag();
    scene.confirmSetting(clinic, asked, unit);
    Crew.Browser browser = Crew.signIn(clinic.desk());
    browser.get().get("/").then().statusCode(303).header("Location", containsString("/front-desk"));
    browser
        .get()
        .get("/front-desk")
        .then()
        .statusCode(200)
        .body(containsString("<h1>One thing to do now</h1>"))
        .body(containsString("1 going out."))
        .body(containsString("<span class=\"name\">Ada Lindqvist</span>, chart " + asked.chart()))
        .body(containsString("href=\"/check-out?program=" + asked.program() + "\""))
        .body(containsString("/units/" + unit))
        .body(not(containsString("Late")));
    Crew.signIn(clinic.pt())
        .get()
        .get("/")
        .then()
        .statusCode(303)
        .header("Location", containsString("/needs-me"));
  }

  @Test
  void anEmptyDeskSaysWhatWillAppear() {
    DeskScene.Clinic clinic = scene.clinic();
    Crew.signIn(clinic.desk())
        .get()
        .get("/front-desk")
        .then()
        .statusCode(200)
        .body(containsString("Nothing waits at the desk"))
        .body(containsString("Here stands what waits"));
  }

  @Test
  void nobodySeesAnotherLocationsDay() {
    DeskScene.Clinic mine = scene.clinic();
    DeskScene.Clinic other = scene.clinic();
    scene.asked(other);
    mine.desk().script().get("/api/today?location=" + other.code()).then().statusCode(404);
    mine.desk().script().get("/api/today").then().statusCode(200).body("goingOut", empty());
  }

  @Test
  void requestsForLaterWeeksAreNoMatterOfToday() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Asked asked = scene.asked(clinic);
    scene.at(START.minusDays(8), "09:00");
    clinic.today().body("goingOut", empty());
    scene.at(START.minusDays(7), "09:00");
    clinic.today().body("goingOut.requestId", equalTo(List.of(asked.request())));
  }
}
