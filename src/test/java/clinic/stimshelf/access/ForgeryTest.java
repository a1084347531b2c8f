package clinic.stimshelf.access;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;

import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import io.restassured.http.ContentType;
import jakarta.inject.Inject;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Nobody else's page acts with a person's cookie: OWASP ASVS 5.0, 3.5.1. */
@QuarkusTest
class ForgeryTest {
  @Inject Crew crew;

  private Member member;
  private Browser browser;

  @BeforeEach
  void signIn() {
    member = crew.withPassword(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Forge")));
    browser = Crew.signIn(member);
  }

  @Test
  void aFormWithoutTokenIsRefusedWithAPage() {
    browser
        .get()
        .contentType("application/x-www-form-urlencoded")
        .formParam("back", "/")
        .post("/privacy")
        .then()
        .statusCode(403)
        .contentType("text/html")
        .body(containsString("<h1>"));
  }

  @Test
  void anotherSessionsTokenIsRefused() {
    Browser other = Crew.signIn(member);
    browser
        .get()
        .contentType("application/x-www-form-urlencoded")
        .formParam("csrf", other.csrf())
        .post("/privacy")
        .then()
        .statusCode(403);
  }

  @Test
  void itsOwnTokenIsTakenFromFieldOrHeader() {
    browser.form().formParam("back", "/account").post("/privacy").then().statusCode(303);
    browser.get().header("X-CSRF", browser.csrf()).post("/session").then().statusCode(200);
  }

  @Test
  void itsOwnTokenIsTakenFromAFormWithFiles() {
    browser
        .get()
        .multiPart("csrf", browser.csrf())
        .multiPart("back", "/account")
        .post("/privacy")
        .then()
        .statusCode(303);
    browser
        .get()
        .multiPart("csrf", "wrong")
        .multiPart("back", "/account")
        .post("/privacy")
        .then()
        .statusCode(403);
  }

  @Test
  void whatAnotherSiteSendsIsRefusedEvenWithTheToken() {
    browser
        .form()
        .header("Sec-Fetch-Site", "cross-site")
        .formParam("back", "/")
        .post("/privacy")
        .then()
        .statusCode(403);
    browser.form().header("Origin", "https://evil.example").post("/privacy").then().statusCode(403);
    browser.form().header("Origin", "null").post("/privacy").then().statusCode(403);
  }

  @Test
  void anotherSiteSignsNobodyIn() {
    given()
        .redirects()
        .follow(false)
        .header("Origin", "https://evil.example")
        .contentType("application/x-www-form-urlencoded")
        .formParam("username", member.username())
        .formParam("password", Crew.PASSWORD)
        .post("/sign-in")
        .then()
        .statusCode(403);
  }

  /**
   * A form from before the last sign-in is no forgery: what was typed comes back with a new token.
   */
  @Test
  void anOldFormOfOurOwnComesBackWithWhatWasTyped() {
    String page =
        browser
            .get()
            .header("Origin", "http://127.0.0.1:" + RestAssured.port)
            .header("Sec-Fetch-Site", "same-origin")
            .contentType("application/x-www-form-urlencoded; charset=UTF-8")
            .formParam("csrf", "of an older page")
            .formParam("name", "Rosalind <Quarry> & Söhne")
            .post("/settings/staff")
            .then()
            .statusCode(403)
            .extract()
            .asString();
    assertThat(page)
        .contains("Rosalind &lt;Quarry&gt; &amp; Söhne")
        .contains("action=\"/settings/staff\"")
        .contains("name=\"csrf\" value=\"" + browser.csrf() + "\"")
        .doesNotContain("of an older page");
  }

  @Test
  void whatAnotherSiteTypedDoesNotComeBack() {
    browser
        .get()
        .header("Sec-Fetch-Site", "cross-site")
        .contentType("application/x-www-form-urlencoded")
        .formParam("name", "Planted")
        .post("/settings/staff")
        .then()
        .statusCode(403)
        .body(not(containsString("Planted")));
  }

  @Test
  void theApiTakesTheCookieWithItsHeaderOnly() {
    String entry = "{\"name\":\"by cookie\"}";
    browser
        .get()
        .contentType(ContentType.JSON)
        .body(entry)
        .post("/api/access-keys")
        .then()
        .statusCode(403)
        .contentType("application/problem+json");
    browser
        .get()
        .contentType(ContentType.JSON)
        .header("X-CSRF", browser.csrf())
        .body(entry)
        .post("/api/access-keys")
        .then()
        .statusCode(201);
  }

  @Test
  void callsWithTheirOwnAuthorizationNeedNoToken() {
    String entry = "{\"name\":\"by script\"}";
    member
        .script()
        .contentType(ContentType.JSON)
        .body(entry)
        .post("/api/access-keys")
        .then()
        .statusCode(201);
    given()
        .auth()
        .preemptive()
        .basic(member.username(), Crew.PASSWORD)
        .contentType(ContentType.JSON)
        .body(entry)
        .post("/api/access-keys")
        .then()
        .statusCode(201);
  }
}
