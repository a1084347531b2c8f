package clinic.stimshelf.access;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.endsWith;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;

import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import jakarta.inject.Inject;
import java.time.Duration;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What was typed outlives a sign-in that runs out, and a change of person. */
@QuarkusTest
class KeptFormTest {
  private static final String FORM = "application/x-www-form-urlencoded; charset=UTF-8";

  @Inject Crew crew;
  @Inject MutableClock clock;
  @Inject HeldFormRows rows;
  @Inject Staff staff;

  private Member member;
  private Browser browser;
  private String place;

  @BeforeEach
  void signIn() {
    place = Crew.unique("Kept");
    member = crew.withPassword(Roles.MANAGER, Credential.NONE, crew.location(place));
    browser = Crew.signIn(member);
    clock.advance(Duration.ZERO);
  }

  private static RequestSpecification ofOurOwnPage(RequestSpecification request) {
    return request
        .header("Origin", "http://127.0.0.1:" + RestAssured.port)
        .header("Sec-Fetch-Site", "same-origin");
  }

  private Response sendAfterTheEnd(String ref) {
    clock.advance(Duration.ofMinutes(16));
    return ofOurOwnPage(browser.form())
        .header("Referer", "http://127.0.0.1:" + RestAssured.port + "/settings/staff/new")
        .formParam("name", "Rosalind “Rose” Quarry")
        .formParam("ref", ref)
        .formParam("credential", "pt")
        .formParam("role", "therapist")
        .formParam("locations", place)
        .formParam("password", "never to be kept")
        .post("/settings/staff");
  }

  private Response signInWith(String kept, String next) {
    return given()
        .redirects()
        .follow(false)
        .cookie("stimshelf-kept", kept)
        .contentType(FORM)
        .formParam("username", member.username())
        .formParam("password", Crew.PASSWORD)
        .formParam("next", next)
        .post("/sign-in");
  }

  @Test
  void aFormSentAfterTheEndIsKeptShownAndSentOn() {
    String ref = Crew.unique("kept-");
    Response away = sendAfterTheEnd(ref);
    away.then().statusCode(303).header("Location", containsString("/sign-in?next="));
    String kept = away.getCookie("stimshelf-kept");
    assertThat(kept).isNotEmpty();
    assertThat(away.getHeader("Set-Cookie")).containsIgnoringCase("httponly");

    given()
        .cookie("stimshelf-kept", kept)
        .get("/sign-in")
        .then()
        .body(containsString("What was typed is kept"));

    Response in = signInWith(kept, "/settings/staff/new");
    in.then().statusCode(303).header("Location", endsWith("/kept"));
    String cookie = in.getCookie("stimshelf");
    String page =
        given()
            .cookie("stimshelf", cookie)
            .cookie("stimshelf-kept", kept)
            .get("/kept")
            .then()
            .statusCode(200)
            .extract()
            .asString();
    assertThat(page).contains("Rosalind “Rose” Quarry").contains(ref).doesNotContain("never to be");

    String mark = "name=\"csrf\" value=\"";
    int from = page.indexOf(mark) + mark.length();
    String csrf = page.substring(from, page.indexOf('"', from));
    Response onward = formAgain(cookie, kept, csrf, ref).post("/kept/send");
    onward.then().statusCode(307).header("Location", endsWith("/settings/staff"));
    formAgain(cookie, kept, csrf, ref).post("/settings/staff").then().statusCode(303);
    assertThat(staff.byRef(ref).name()).isEqualTo("Rosalind “Rose” Quarry");
    given()
        .redirects()
        .follow(false)
        .cookie("stimshelf", cookie)
        .cookie("stimshelf-kept", kept)
        .get("/kept")
        .then()
        .statusCode(303);
  }

  private RequestSpecification formAgain(String cookie, String kept, String csrf, String ref) {
    return given()
        .redirects()
        .follow(false)
        .cookie("stimshelf", cookie)
        .cookie("stimshelf-kept", kept)
        .contentType(FORM)
        .formParam("csrf", csrf)
        .formParam("name", "Rosalind “Rose” Quarry")
        .formParam("ref", ref)
        .formParam("credential", "pt")
        .formParam("role", "therapist")
        .formParam("locations", place);
  }

  @Test
  void theDatabaseAloneDoesNotShowWhatWasTyped() {
    String ref = Crew.unique("sealed-");
    String kept = sendAfterTheEnd(ref).getCookie("stimshelf-kept");
    HeldForm row = rows.find("tokenHash", Secrets.sha256(kept)).firstResult();
    assertThat(row.sealed).doesNotContain(ref).doesNotContain("Quarry");
    assertThat(
            new String(
                java.util.Base64.getDecoder().decode(row.sealed),
                java.nio.charset.StandardCharsets.ISO_8859_1))
        .doesNotContain(ref)
        .doesNotContain("Quarry");
  }

  /** Else another site could plant a form that its victim sends after signing in. */
  @Test
  void nothingIsKeptThatOurOwnPageDidNotSend() {
    Response away =
        given()
            .redirects()
            .follow(false)
            .contentType(FORM)
            .formParam("name", "Planted")
            .post("/settings/staff");
    assertThat(away.statusCode()).isEqualTo(303);
    assertThat(away.getCookie("stimshelf-kept")).isNull();
  }

  @Test
  void afterSomeHoursNothingIsKeptAnyMore() {
    String kept = sendAfterTheEnd(Crew.unique("late-")).getCookie("stimshelf-kept");
    clock.advance(Duration.ofHours(5));
    signInWith(kept, "/account").then().statusCode(303).header("Location", endsWith("/account"));
  }

  @Test
  void thePersonChangesInOneStepAndTheOpenFormComesBack() {
    Member next =
        crew.withPassword(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Kept")));
    Response away =
        browser
            .form()
            .formParam("name", "Half typed")
            .formParam("_page", "/settings/staff/new")
            .formParam("_action", "/settings/staff")
            .post("/change-person/keep");
    away.then()
        .statusCode(303)
        .header("Location", endsWith("/change-person?next=%2Fsettings%2Fstaff%2Fnew"));
    String kept = away.getCookie("stimshelf-kept");
    browser
        .get()
        .get("/change-person?next=/settings/staff/new")
        .then()
        .body(containsString("Person " + member.username()));
    Response in =
        given()
            .redirects()
            .follow(false)
            .cookie("stimshelf", browser.cookie())
            .cookie("stimshelf-kept", kept)
            .contentType(FORM)
            .formParam("username", next.username())
            .formParam("password", Crew.PASSWORD)
            .formParam("next", "/settings/staff/new")
            .post("/change-person");
    in.then().statusCode(303).header("Location", endsWith("/settings/staff/new#kept"));
    browser.get().get("/account").then().statusCode(303);

    String cookie = in.getCookie("stimshelf");
    String csrf = Secrets.formToken(cookie);
    given()
        .cookie("stimshelf", cookie)
        .cookie("stimshelf-kept", kept)
        .header("X-CSRF", csrf)
        .post("/kept/take")
        .then()
        .statusCode(200)
        .body("action", equalTo("/settings/staff"))
        .body("fields.value", hasItem("Half typed"));
  }

  @Test
  void aFailedChangeLeavesTheFirstPersonSignedIn() {
    given()
        .redirects()
        .follow(false)
        .cookie("stimshelf", browser.cookie())
        .contentType(FORM)
        .formParam("username", member.username())
        .formParam("password", "not the right one at all")
        .formParam("next", "/account")
        .post("/change-person")
        .then()
        .statusCode(422)
        .body(containsString("go together"));
    browser.get().get("/account").then().statusCode(200);
    assertThat(Crew.postSignIn(member.username(), Crew.PASSWORD).statusCode()).isEqualTo(303);
  }
}
