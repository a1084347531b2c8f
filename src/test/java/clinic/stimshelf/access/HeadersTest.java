package clinic.stimshelf.access;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.Routes;
import clinic.stimshelf.testing.Routes.Route;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.Test;

/** Every answer carries the security headers, errors too: OWASP ASVS 5.0, 3.4.x, 4.1.1, 14.3.2. */
@QuarkusTest
class HeadersTest {
  private static final String POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src"
          + " 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors"
          + " 'none'";

  @Inject Crew crew;

  @Test
  void everyAnswerIsGuarded() {
    Member manager =
        crew.member(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Head")));
    List<String> paths =
        new ArrayList<>(Routes.all().stream().filter(Route::reads).map(Route::concrete).toList());
    paths.addAll(
        List.of(
            "/no-such-page",
            "/api/no-such-call",
            "/stimshelf.css",
            "/stimshelf.js",
            "/q/health",
            "/q/metrics",
            "/webjars/htmx.org/dist/htmx.min.js",
            "/%00",
            "/..%2f"));
    SoftAssertions softly = new SoftAssertions();
    for (String path : paths) {
      check(softly, "nobody: " + path, given().redirects().follow(false).get(path));
      check(softly, "manager: " + path, manager.script().get(path));
    }
    softly.assertAll();
  }

  private static void check(SoftAssertions softly, String what, Response answer) {
    softly.assertThat(answer.getHeader("Content-Security-Policy")).as(what).isEqualTo(POLICY);
    softly.assertThat(answer.getHeader("X-Content-Type-Options")).as(what).isEqualTo("nosniff");
    softly
        .assertThat(answer.getHeader("Referrer-Policy"))
        .as(what)
        .isIn("same-origin", "no-referrer");
    softly.assertThat(answer.getHeader("Permissions-Policy")).as(what).contains("camera=(self)");
    softly
        .assertThat(answer.getHeader("Cross-Origin-Opener-Policy"))
        .as(what)
        .isEqualTo("same-origin");
    softly
        .assertThat(answer.getHeader("Cross-Origin-Resource-Policy"))
        .as(what)
        .isEqualTo("same-origin");
    softly
        .assertThat(answer.getHeader("Strict-Transport-Security"))
        .as(what + " over http")
        .isNull();
    String type = answer.getContentType();
    if (type != null && type.startsWith("text/html")) {
      softly.assertThat(type.toLowerCase(java.util.Locale.ROOT)).as(what).contains("charset=utf-8");
    }
  }

  @Test
  void nothingButAssetsIsKeptByABrowser() {
    Member manager =
        crew.member(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Head")));
    assertThat(manager.script().get("/settings/staff").getHeader("Cache-Control"))
        .isEqualTo("no-store");
    assertThat(manager.script().get("/api/me").getHeader("Cache-Control")).isEqualTo("no-store");
    assertThat(given().get("/no-such.css").getHeader("Cache-Control")).isEqualTo("no-store");
    assertThat(given().get("/stimshelf.css").getHeader("Cache-Control")).isEqualTo("no-cache");
  }

  @Test
  void aFailedCallIsAProblemUnderApiAndAPageElsewhere() {
    given().get("/api/no-such-call").then().statusCode(404).contentType("application/problem+json");
    given().get("/no-such-page").then().statusCode(404).contentType("text/html");
  }

  /** OWASP ASVS 5.0, 13.4.2 and 13.4.5: the framework's own doors are closed, health excepted. */
  @Test
  void theInnerDoorsAreClosed() {
    assertThat(given().get("/q/health").statusCode()).isEqualTo(200);
    for (String path : List.of("/q/metrics", "/q/dev-ui", "/q/swagger-ui", "/q/arc", "/q/info")) {
      assertThat(given().redirects().follow(false).get(path).statusCode())
          .as(path)
          .isIn(401, 403, 404);
    }
    Member manager =
        crew.member(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Head")));
    assertThat(manager.script().get("/q/metrics").statusCode()).isEqualTo(403);
  }

  /** OWASP ASVS 5.0, 4.1.3: no client says of itself where it comes from or how. */
  @Test
  void forwardedHeadersAreNotBelieved() {
    Response answer =
        given()
            .header("X-Forwarded-Proto", "https")
            .header("X-Forwarded-For", "192.0.2.9")
            .header("Forwarded", "proto=https;for=192.0.2.9")
            .get("/sign-in");
    assertThat(answer.getHeader("Strict-Transport-Security")).isNull();
  }
}
