package clinic.stimshelf.access;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import org.junit.jupiter.api.Test;

/** Signing in and out with a browser: OWASP ASVS 5.0, 3.3.x, 7.2.x, 7.4.x. */
@QuarkusTest
class SignInTest {
  @Inject Crew crew;

  @Inject BrowserSessions rows;

  private Member desk() {
    return crew.withPassword(
        Roles.FRONT_DESK, Credential.NONE, crew.location(Crew.unique("SignIn")));
  }

  @Test
  void aPageLeadsToTheSignInAndBack() {
    Member member = desk();
    given()
        .redirects()
        .follow(false)
        .get("/account?tab=1")
        .then()
        .statusCode(303)
        .header("Location", org.hamcrest.Matchers.endsWith("/sign-in?next=%2Faccount%3Ftab%3D1"));
    Response answer =
        given()
            .redirects()
            .follow(false)
            .contentType("application/x-www-form-urlencoded")
            .formParam("username", member.username())
            .formParam("password", Crew.PASSWORD)
            .formParam("next", "/account?tab=1")
            .post("/sign-in");
    answer
        .then()
        .statusCode(303)
        .header("Location", org.hamcrest.Matchers.endsWith("/account?tab=1"));
    assertThat(answer.getHeader("Location")).doesNotContain("kept");
  }

  @Test
  void theSessionCookieIsOutOfReachOfScriptsAndOtherSites() {
    String cookie = Crew.postSignIn(desk().username(), Crew.PASSWORD).getHeader("Set-Cookie");
    assertThat(cookie)
        .startsWith("stimshelf=")
        .containsIgnoringCase("httponly")
        .containsIgnoringCase("samesite=lax")
        .containsIgnoringCase("path=/")
        .doesNotContainIgnoringCase("domain")
        .doesNotContainIgnoringCase("max-age");
  }

  @Test
  void theIdentifierIsLongNewEachTimeAndStoredOnlyAsItsHash() {
    Member member = desk();
    String one = Crew.postSignIn(member.username(), Crew.PASSWORD).getCookie("stimshelf");
    String other = Crew.postSignIn(member.username(), Crew.PASSWORD).getCookie("stimshelf");
    assertThat(one).hasSize(43).isNotEqualTo(other);
    assertThat(rows.count("tokenHash", one)).isZero();
    assertThat(rows.count("tokenHash", Secrets.sha256(one))).isEqualTo(1);
  }

  @Test
  void aSignedOutCookieOpensNothingEvenIfReplayed() {
    Browser browser = Crew.signIn(desk());
    browser.get().get("/account").then().statusCode(200);
    browser.form().post("/sign-out").then().statusCode(303);
    browser.get().get("/account").then().statusCode(303);
  }

  @Test
  void signingInAgainEndsTheSessionBefore() {
    Member member = desk();
    Browser browser = Crew.signIn(member);
    given()
        .cookie("stimshelf", browser.cookie())
        .redirects()
        .follow(false)
        .contentType("application/x-www-form-urlencoded")
        .formParam("username", member.username())
        .formParam("password", Crew.PASSWORD)
        .post("/sign-in")
        .then()
        .statusCode(303);
    browser.get().get("/account").then().statusCode(303);
  }
}
