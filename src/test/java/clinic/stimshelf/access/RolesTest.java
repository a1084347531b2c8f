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
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.Test;

/**
 * Who may call what: every page and call against nobody and every role (45 CFR 164.312(a)(1), OWASP
 * ASVS 5.0, 8.2.1). A new route is found by itself; one that is open to everybody must be named
 * here.
 */
@QuarkusTest
class RolesTest {
  /** Open to everybody, each for its reason. Patients' own pages are opened by their address. */
  private static final Set<String> OPEN =
      Set.of(
          "GET /sign-in",
          "POST /sign-in",
          "GET /change-person",
          "POST /change-person",
          "GET /session",
          "GET /set-password",
          "POST /set-password",
          "GET /first-account",
          "POST /first-account",
          // Its signature says who calls.
          "POST /api/text-gateway",
          // A calendar program cannot sign in: the address is the key.
          "GET /calendar/{secret}",
          // Every page of the demo offers it, the sign-in page too.
          "GET /your-clinic");

  private static final String PATIENTS_PAGES = "/p/";

  @Inject Crew crew;

  @Test
  void everyRouteSaysWhoMay() {
    assertThat(Routes.all()).isNotEmpty().allMatch(Route::named);
    assertThat(Routes.all()).flatExtracting(Route::roles).isSubsetOf(Staff.ROLES);
  }

  @Test
  void onlyNamedRoutesAreOpenToEverybody() {
    Set<String> open = new TreeSet<>();
    for (Route route : Routes.all()) {
      if (route.open() && !route.path().startsWith(PATIENTS_PAGES)) {
        open.add(route.toString());
      }
    }
    assertThat(open).isEqualTo(new TreeSet<>(OPEN));
  }

  @Test
  void nobodyIsAskedToSignInEverywhereElse() {
    SoftAssertions softly = new SoftAssertions();
    for (Route route : Routes.all()) {
      if (!route.open()) {
        Response answer = route.call(given().redirects().follow(false));
        softly
            .assertThat(answer.statusCode())
            .as("nobody: " + route)
            .isEqualTo(route.isApi() ? 401 : 303);
        if (!route.isApi()) {
          softly.assertThat(answer.getHeader("Location")).as("" + route).contains("/sign-in");
        }
      }
    }
    softly.assertAll();
  }

  /** A refused role is refused before anything of the call is looked at. */
  @Test
  void everyOtherRoleIsRefused() {
    Long place = crew.location(Crew.unique("Roles"));
    Map<String, Member> members = new TreeMap<>();
    for (String role : List.of(Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER)) {
      members.put(role, crew.member(role, Credential.NONE, place));
    }
    SoftAssertions softly = new SoftAssertions();
    for (Route route : Routes.all()) {
      if (!route.open()) {
        members.forEach(
            (role, member) -> {
              if (!route.roles().contains(role)) {
                softly
                    .assertThat(route.call(member.script()).statusCode())
                    .as(role + ": " + route)
                    .isEqualTo(403);
              }
            });
      }
    }
    softly.assertAll();
  }

  @Test
  void noReadingCallOfAnAllowedRoleIsRefused() {
    Long place = crew.location(Crew.unique("Roles"));
    SoftAssertions softly = new SoftAssertions();
    for (String role : List.of(Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER)) {
      Member member = crew.member(role, Credential.NONE, place);
      for (Route route : Routes.all()) {
        if (route.method().equals("GET") && route.roles().contains(role)) {
          softly
              .assertThat(member.script().get(route.concrete()).statusCode())
              .as(role + ": " + route)
              .isNotIn(401, 403, 500);
        }
      }
    }
    softly.assertAll();
  }
}
