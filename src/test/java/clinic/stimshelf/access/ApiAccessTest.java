package clinic.stimshelf.access;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.not;

import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Scripts under /api: keys, Basic, and plain answers for those who may not. */
@QuarkusTest
class ApiAccessTest {
  @Inject Crew crew;
  @Inject Staff staff;
  @Inject AccessKeyRows keyRows;

  private Member manager() {
    return crew.withPassword(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Api")));
  }

  @Test
  void nobodyGetsAProblemAndNoRedirect() {
    Response answer = given().redirects().follow(false).get("/api/me");
    answer
        .then()
        .statusCode(401)
        .contentType("application/problem+json")
        .body("status", equalTo(401))
        .body("title", equalTo("Not signed in"));
    assertThat(answer.getHeaders().getValues("WWW-Authenticate").toString()).contains("Basic");
  }

  /** A browser would ask for a password itself and then send it with forged requests too. */
  @Test
  void aBrowserIsNotOfferedBasic() {
    given()
        .header("Sec-Fetch-Mode", "navigate")
        .get("/api/me")
        .then()
        .statusCode(401)
        .header("WWW-Authenticate", not(containsString("Basic")));
  }

  @Test
  void aWrongCookieIsNobody() {
    given()
        .cookie("stimshelf", "made-up")
        .get("/api/me")
        .then()
        .statusCode(401)
        .contentType("application/problem+json");
  }

  @Test
  void nameAndPasswordWorkWithTheCall() {
    Member member = manager();
    given()
        .auth()
        .preemptive()
        .basic(member.username(), Crew.PASSWORD)
        .get("/api/me")
        .then()
        .statusCode(200)
        .body("username", equalTo(member.username()))
        .body("role", equalTo("manager"));
  }

  @Test
  void aRememberedPasswordIsForgottenWhenTheAccountEnds() {
    Member member = manager();
    given()
        .auth()
        .preemptive()
        .basic(member.username(), Crew.PASSWORD)
        .get("/api/me")
        .then()
        .statusCode(200);
    manager();
    staff.disable(member.id());
    given()
        .auth()
        .preemptive()
        .basic(member.username(), Crew.PASSWORD)
        .get("/api/me")
        .then()
        .statusCode(401);
  }

  @Test
  void aKeyIsShownOnceAndStoredAsItsHash() {
    Member member = manager();
    String secret =
        member
            .script()
            .contentType(ContentType.JSON)
            .body("{\"name\":\"night export\",\"role\":\"front-desk\"}")
            .post("/api/access-keys")
            .then()
            .statusCode(201)
            .extract()
            .path("secret");
    assertThat(secret).hasSize(43);
    assertThat(keyRows.count("keyHash", Secrets.sha256(secret))).isEqualTo(1);
    assertThat(member.script().get("/api/access-keys").asString()).doesNotContain(secret);
    given()
        .header("Authorization", "Bearer " + secret)
        .get("/api/me")
        .then()
        .body("role", equalTo("front-desk"));
    given().header("Authorization", "Bearer " + secret).get("/api/staff").then().statusCode(403);
  }

  @Test
  void aRevokedKeyOpensNothing() {
    Member member = manager();
    String id = member.script().get("/api/access-keys").then().extract().path("items[0].id");
    member.script().delete("/api/access-keys/" + id).then().statusCode(204);
    member.script().get("/api/me").then().statusCode(401).contentType("application/problem+json");
  }

  @Test
  void aKeyOfADisabledAccountOpensNothing() {
    Long place = crew.location(Crew.unique("Api"));
    Member other = crew.member(Roles.FRONT_DESK, Credential.NONE, place);
    other.script().get("/api/me").then().statusCode(200);
    staff.disable(other.id());
    other.script().get("/api/me").then().statusCode(401);
  }

  @Test
  void aKeyIsBoundToItsLocations() {
    Long one = crew.location(Crew.unique("Api"));
    String otherCode = Crew.unique("Api");
    Long other = crew.location(otherCode);
    Member member = crew.member(Roles.MANAGER, Credential.NONE, one, other);
    String secret =
        member
            .script()
            .contentType(ContentType.JSON)
            .body("{\"name\":\"one place\",\"locations\":[\"" + otherCode + "\"]}")
            .post("/api/access-keys")
            .then()
            .extract()
            .path("secret");
    given()
        .header("Authorization", "Bearer " + secret)
        .get("/api/me")
        .then()
        .body("locations", equalTo(List.of(otherCode)));
  }

  @Test
  void aKeyMakesNoKeyOfAWiderRole() {
    Long place = crew.location(Crew.unique("Api"));
    crew.member(Roles.FRONT_DESK, Credential.NONE, place)
        .script()
        .contentType(ContentType.JSON)
        .body("{\"name\":\"wider\",\"role\":\"manager\"}")
        .post("/api/access-keys")
        .then()
        .statusCode(422)
        .body("errors.field", hasItem("role"));
  }

  /** OWASP ASVS 5.0, 8.2.2: another location's people are not there, rather than forbidden. */
  @Test
  void aManagerSeesTheStaffOfTheirOwnLocations() {
    Member here = crew.member(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Api")));
    Member there = crew.member(Roles.THERAPIST, Credential.PT, crew.location(Crew.unique("Api")));
    here.script().get("/api/staff/" + here.id()).then().statusCode(200);
    here.script().get("/api/staff/" + there.id()).then().statusCode(404);
    here.script().post("/api/staff/" + there.id() + "/disable").then().statusCode(404);
  }

  @Test
  void anUnreadableAuthorizationIsSaid() {
    given().header("Authorization", "Digest x").get("/api/me").then().statusCode(401);
    given().header("Authorization", "Basic ???").get("/api/me").then().statusCode(401);
    given().header("Authorization", "Bearer").get("/api/me").then().statusCode(401);
  }
}
