package clinic.stimshelf.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItems;

import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Staff as entered on the page and by scripts. */
@QuarkusTest
class StaffTest {
  @Inject Crew crew;
  @Inject Staff staff;
  @Inject SignedIn signedIn;

  @Test
  void aScriptAddsChangesAndReadsOne() {
    String place = Crew.unique("Staff");
    Member manager = crew.member(Roles.MANAGER, Credential.NONE, crew.location(place));
    String ref = Crew.unique("r");
    String id =
        manager
            .script()
            .contentType(ContentType.JSON)
            .body(
                Map.of(
                    "ref",
                    ref,
                    "name",
                    "Ines Vahl",
                    "credential",
                    "pta",
                    "role",
                    "therapist",
                    "licenseEndsOn",
                    "2027-03-31",
                    "locations",
                    List.of(place)))
            .post("/api/staff")
            .then()
            .statusCode(201)
            .body("initials", equalTo("IV"))
            .body("credential", equalTo("pta"))
            .body("username", equalTo(null))
            .body("locations", equalTo(List.of(place)))
            .extract()
            .path("id");
    Map<String, Object> changed =
        Map.of(
            "ref",
            ref,
            "name",
            "Ines Vahl-Oduya",
            "credential",
            "pt",
            "role",
            "therapist",
            "locations",
            List.of(place));
    manager
        .script()
        .contentType(ContentType.JSON)
        .header("If-Match", "\"0\"")
        .body(changed)
        .put("/api/staff/" + id)
        .then()
        .statusCode(200)
        .body("name", equalTo("Ines Vahl-Oduya"))
        .body("version", equalTo(1));
    manager
        .script()
        .contentType(ContentType.JSON)
        .header("If-Match", "\"0\"")
        .body(changed)
        .put("/api/staff/" + id)
        .then()
        .statusCode(412);
  }

  @Test
  void everythingThatStandsAgainstAnEntryIsSaidAtOnce() {
    Member manager =
        crew.member(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Staff")));
    manager
        .script()
        .contentType(ContentType.JSON)
        .body(Map.of("ref", "no spaces here", "name", "", "role", "boss", "username", "ÄÖ"))
        .post("/api/staff")
        .then()
        .statusCode(422)
        .contentType("application/problem+json")
        .body("errors.field", hasItems("ref", "name", "role", "username"));
  }

  /** OWASP ASVS 5.0, 15.3.3: what a form does not ask for is not taken. */
  @Test
  void thePageTakesOnlyWhatItAsksFor() {
    String place = Crew.unique("Staff");
    Member manager = crew.withPassword(Roles.MANAGER, Credential.NONE, crew.location(place));
    Browser browser = Crew.signIn(manager);
    String ref = Crew.unique("r");
    browser
        .form()
        .formParam("ref", ref)
        .formParam("name", "Otto <b>Brandt</b>")
        .formParam("credential", "aide")
        .formParam("role", "front-desk")
        .formParam("locations", place)
        .formParam("active", "false")
        .formParam("passwordHash", "x")
        .formParam("id", "1")
        .post("/settings/staff")
        .then()
        .statusCode(303);
    StaffView added = staff.byRef(ref);
    assertThat(added.active()).isTrue();
    assertThat(added.passwordSet()).isFalse();
    browser
        .get()
        .get("/settings/staff")
        .then()
        .statusCode(200)
        .body(containsString("Otto &lt;b&gt;Brandt&lt;/b&gt;"));
    browser.get().get("/settings/staff/" + added.id()).then().statusCode(200);
  }

  @Test
  void aWrongEntryComesBackWithWhatWasTypedAndTheFieldMarked() {
    Browser browser =
        Crew.signIn(
            crew.withPassword(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Staff"))));
    browser
        .form()
        .formParam("ref", "x y")
        .formParam("name", "Half \"typed\"")
        .formParam("licenseEndsOn", "soon")
        .formParam("role", "therapist")
        .formParam("credential", "pt")
        .post("/settings/staff")
        .then()
        .statusCode(422)
        .contentType("text/html")
        .body(containsString("Half &quot;typed&quot;"))
        .body(containsString("soon"))
        .body(containsString("aria-invalid=\"true\""));
  }

  @Test
  void aManagerNamesOnlyTheirOwnLocations() {
    Member manager =
        crew.member(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Staff")));
    String foreign = Crew.unique("Staff");
    crew.location(foreign);
    manager
        .script()
        .contentType(ContentType.JSON)
        .body(
            Map.of(
                "ref",
                Crew.unique("r"),
                "name",
                "N N",
                "role",
                "therapist",
                "locations",
                List.of(foreign)))
        .post("/api/staff")
        .then()
        .statusCode(404);
  }

  @Test
  void whoeverAddsALocationWorksThere() {
    Member manager =
        crew.member(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Staff")));
    Long added = crew.as(manager.id(), () -> crew.location(Crew.unique("Staff")));
    assertThat(staff.byId(manager.id()).locationIds()).contains(added);
  }

  @Test
  void theScreenShowsTheLocationChosenAndNamesBlankedOnWish() {
    Long one = crew.location(Crew.unique("Staff"));
    String other = Crew.unique("Staff");
    Browser browser =
        Crew.signIn(
            crew.withPassword(Roles.FRONT_DESK, Credential.NONE, one, crew.location(other)));
    browser
        .form()
        .formParam("location", other)
        .formParam("back", "/account")
        .post("/location")
        .then()
        .statusCode(303);
    browser
        .get()
        .get("/account")
        .then()
        .body(containsString("<span>Location " + other + "</span>"));
    browser
        .form()
        .formParam("back", "//evil.example")
        .post("/privacy")
        .then()
        .statusCode(303)
        .header("Location", org.hamcrest.Matchers.not(containsString("evil")));
    browser.get().get("/account").then().body(containsString("class=\"blanked\""));
  }

  @Test
  void onlyThoseWhoTreatAreOfferedAsTherapists() {
    Long place = crew.location(Crew.unique("Staff"));
    Member pt = crew.member(Roles.THERAPIST, Credential.PT, place);
    crew.member(Roles.FRONT_DESK, Credential.NONE, place);
    Member gone = crew.member(Roles.THERAPIST, Credential.PTA, place);
    staff.disable(gone.id());
    assertThat(staff.therapistsAt(place)).extracting(StaffView::id).containsExactly(pt.id());
  }

  @Test
  void aPersonActsAtTheirOwnLocationsAndTheProgramItselfEverywhere() {
    Long own = crew.location(Crew.unique("Staff"));
    Long foreign = crew.location(Crew.unique("Staff"));
    Member member = crew.member(Roles.FRONT_DESK, Credential.NONE, own);
    signedIn.requireLocation(foreign);
    crew.as(
        member.id(),
        () -> {
          signedIn.requireLocation(own);
          assertThatThrownBy(() -> signedIn.requireLocation(foreign)).isInstanceOf(NotFound.class);
          assertThat(signedIn.has(Roles.FRONT_DESK)).isTrue();
          assertThat(signedIn.has(Roles.MANAGER)).isFalse();
          assertThat(signedIn.locationOr(null)).isEqualTo(own);
          return null;
        });
    assertThat(signedIn.anybody()).isFalse();
  }
}
