package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import jakarta.inject.Inject;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;

/** The first steps of a clinic of one's own. */
@QuarkusTest
class YourClinicTest {
  @Inject Crew crew;
  @Inject Locations locations;

  private Browser manager() {
    return Crew.signIn(
        crew.withPassword(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Steps"))));
  }

  @Test
  void aLocationWithHoursAndHolidaysIsEnteredInThreeForms() {
    Browser browser = manager();
    browser.get().get("/your-clinic").then().statusCode(200).body(containsString("Add a location"));
    browser.get().get("/your-clinic/location").then().statusCode(200);
    String code = Crew.unique("Hill");
    String next =
        browser
            .form()
            .formParam("name", "Hill Street")
            .formParam("code", code)
            .formParam("zone", "America/Chicago")
            .formParam("mon", "08:00-12:00 13:00-17:00")
            .formParam("fri", "9:00-12:00")
            .formParam("rooms", "Gym 4\nBay")
            .post("/your-clinic/location")
            .then()
            .statusCode(303)
            .extract()
            .header("Location");
    assertThat(next).endsWith("/your-clinic/holidays?location=" + code);
    Long id = locations.byCode(code).id();
    assertThat(locations.rooms(id)).hasSize(2);
    assertThat(locations.weeklyHours(id)).hasSize(2);
    String page = browser.get().get(next).then().statusCode(200).extract().asString();
    assertThat(page).contains("Labor Day").doesNotContain("Thanksgiving");
    int mark = page.indexOf("name=\"days\" value=\"") + 19;
    String day = page.substring(mark, mark + 10);
    browser
        .form()
        .formParam("location", code)
        .formParam("days", day)
        .post("/your-clinic/holidays")
        .then()
        .statusCode(303);
    assertThat(locations.closuresFrom(id, LocalDate.parse(day))).hasSize(1);
  }

  @Test
  void whatWasTypedComesBackWithTheFieldMarked() {
    manager()
        .form()
        .formParam("name", "")
        .formParam("code", "a b")
        .formParam("zone", "America/Chicago")
        .formParam("mon", "eight to five")
        .post("/your-clinic/location")
        .then()
        .statusCode(422)
        .body(containsString("eight to five"))
        .body(containsString("Write hours such as"));
  }

  @Test
  void outsideOfTheDemoNobodyMakesASecondClinic() {
    RestAssured.get("/your-clinic").then().statusCode(200).body(containsString("your own clinic"));
    manager().form().post("/your-clinic").then().statusCode(303);
    assertThat(ChosenClinic.marker(java.nio.file.Path.of("data"))).doesNotExist();
  }
}
