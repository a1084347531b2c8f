package clinic.stimshelf.access;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.hamcrest.Matchers.containsString;

import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.audit.TrailEntry;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;

/** How a person comes to an account and loses it: OWASP ASVS 5.0, 6.3.2, 6.4.1, 7.4.x. */
@QuarkusTest
class AccountsTest {
  private static final String NEXT = "eleven kites above a salt marsh";

  @Inject Crew crew;
  @Inject Staff staff;
  @Inject Accounts accounts;
  @Inject Passwords passwords;
  @Inject OneTimeCodes codes;
  @Inject MutableClock clock;
  @Inject StaffMembers members;
  @Inject Trail trail;

  private Member member(String role) {
    return crew.withPassword(role, Credential.NONE, crew.location(Crew.unique("Acc")));
  }

  @Test
  void aOneTimeCodeWorksOnce() {
    Member member = member(Roles.FRONT_DESK);
    String code = accounts.newCode(member.id());
    accounts.setPassword(code.toLowerCase(java.util.Locale.ROOT).replace("-", " "), NEXT);
    assertThat(Crew.postSignIn(member.username(), NEXT).statusCode()).isEqualTo(303);
    assertThatThrownBy(() -> accounts.setPassword(code, Crew.PASSWORD)).isInstanceOf(Refusal.class);
  }

  @Test
  void aOneTimeCodeRunsOut() {
    String code = accounts.newCode(member(Roles.FRONT_DESK).id());
    clock.advance(Duration.ofMinutes(61));
    assertThatThrownBy(() -> accounts.setPassword(code, NEXT)).isInstanceOf(Refusal.class);
  }

  @Test
  void aNewCodeReplacesTheOneBefore() {
    Member member = member(Roles.FRONT_DESK);
    String one = accounts.newCode(member.id());
    accounts.newCode(member.id());
    assertThatThrownBy(() -> accounts.setPassword(one, NEXT)).isInstanceOf(Refusal.class);
  }

  @Test
  void aRefusedPasswordDoesNotUseTheCodeUp() {
    String code = accounts.newCode(member(Roles.FRONT_DESK).id());
    assertThatThrownBy(() -> accounts.setPassword(code, "too short")).isInstanceOf(Refusal.class);
    assertThatCode(() -> accounts.setPassword(code, NEXT)).doesNotThrowAnyException();
  }

  @Test
  void settingAPasswordEndsEveryOpenSession() {
    Member member = member(Roles.FRONT_DESK);
    Browser browser = Crew.signIn(member);
    accounts.setPassword(accounts.newCode(member.id()), NEXT);
    browser.get().get("/account").then().statusCode(303);
  }

  @Test
  void thePageSetsThePasswordAndSignsIn() {
    Member member = member(Roles.FRONT_DESK);
    given()
        .redirects()
        .follow(false)
        .contentType("application/x-www-form-urlencoded")
        .formParam("code", accounts.newCode(member.id()))
        .formParam("password", NEXT)
        .post("/set-password")
        .then()
        .statusCode(303)
        .cookie("stimshelf");
    given()
        .contentType("application/x-www-form-urlencoded")
        .formParam("code", "made up")
        .formParam("password", NEXT)
        .post("/set-password")
        .then()
        .statusCode(422)
        .body(containsString("used already"));
  }

  @Test
  void onesOwnPasswordIsChangedByProvingThePresentOne() {
    Member member = member(Roles.THERAPIST);
    Browser here = Crew.signIn(member);
    Browser there = Crew.signIn(member);
    here.form()
        .formParam("present", "not the present one here")
        .formParam("password", NEXT)
        .post("/account/password")
        .then()
        .statusCode(422);
    here.form()
        .formParam("present", Crew.PASSWORD)
        .formParam("password", NEXT)
        .post("/account/password")
        .then()
        .statusCode(200)
        .body(containsString("The password is changed"));
    here.get().get("/account").then().statusCode(200);
    there.get().get("/account").then().statusCode(303);
    assertThat(Crew.postSignIn(member.username(), NEXT).statusCode()).isEqualTo(303);
  }

  @Test
  void disablingEndsEverySessionAndTheSignIn() {
    Member member = member(Roles.THERAPIST);
    Browser browser = Crew.signIn(member);
    staff.disable(member.id());
    browser.get().get("/account").then().statusCode(303);
    assertThat(Crew.postSignIn(member.username(), Crew.PASSWORD).statusCode()).isEqualTo(422);
    staff.enable(member.id());
    assertThat(Crew.postSignIn(member.username(), Crew.PASSWORD).statusCode()).isEqualTo(303);
  }

  @Test
  void aPasswordHashedWithWeakerParametersIsRenewedWhenItsOwnerSignsIn() {
    Member member = member(Roles.FRONT_DESK);
    String old = weaker(Crew.PASSWORD);
    io.quarkus.narayana.jta.QuarkusTransaction.requiringNew()
        .run(() -> members.update("passwordHash = ?1 where id = ?2", old, member.id()));
    assertThat(Crew.postSignIn(member.username(), Crew.PASSWORD).statusCode()).isEqualTo(303);
    assertThat(members.find("id", member.id()).firstResult().passwordHash)
        .startsWith("$argon2id$v=19$m=19456,t=2,p=1$");
    assertThat(Crew.postSignIn(member.username(), Crew.PASSWORD).statusCode()).isEqualTo(303);
  }

  /** Outside of the demo its published password opens nothing, even where a copied row holds it. */
  @Test
  void theDemosPasswordWorksInTheDemoOnly() {
    Member member = member(Roles.MANAGER);
    String hash = PasswordHash.of(Staff.DEMO_PASSWORD, new java.security.SecureRandom()).phc();
    io.quarkus.narayana.jta.QuarkusTransaction.requiringNew()
        .run(() -> members.update("passwordHash = ?1 where id = ?2", hash, member.id()));
    assertThat(Crew.postSignIn(member.username(), Staff.DEMO_PASSWORD).statusCode()).isEqualTo(422);
    assertThatThrownBy(() -> staff.addDemoAccounts()).isInstanceOf(IllegalStateException.class);
    Crew.signIn(member(Roles.FRONT_DESK));
  }

  @Test
  void theDemoListensOnThisMachineOnly() {
    assertThatThrownBy(() -> FirstAccount.keepDemoHome(true, "0.0.0.0"))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("127.0.0.1");
    assertThatCode(() -> FirstAccount.keepDemoHome(true, "127.0.0.1")).doesNotThrowAnyException();
    assertThatCode(() -> FirstAccount.keepDemoHome(true, "localhost")).doesNotThrowAnyException();
    assertThatCode(() -> FirstAccount.keepDemoHome(false, "0.0.0.0")).doesNotThrowAnyException();
  }

  @Test
  void theFirstAccountNeedsTheConsolesCodeAndNobodyBeforeIt() {
    member(Roles.MANAGER);
    String code = codes.make(null);
    assertThatThrownBy(() -> accounts.first(code, "Someone Else", "someone.else", NEXT))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("already");
    given().get("/first-account").then().statusCode(200).body(containsString("already"));
  }

  @Test
  void staffCodesDoNotMakeFirstAccountsNorTheOtherWayRound() {
    String staffs = accounts.newCode(member(Roles.FRONT_DESK).id());
    assertThatThrownBy(() -> accounts.first(staffs, "X Y", "x.y", NEXT))
        .isInstanceOf(Refusal.class);
    String first = codes.make(null);
    assertThatThrownBy(() -> accounts.setPassword(first, NEXT)).isInstanceOf(Refusal.class);
  }

  @Test
  void aPtSignsWhileTheLicenseRuns() {
    StaffView pt =
        new StaffView(
            1L,
            "r",
            "N",
            "N",
            Credential.PT,
            null,
            LocalDate.of(2026, 12, 31),
            Roles.THERAPIST,
            null,
            false,
            true,
            List.of(),
            0);
    assertThat(pt.mayLicensedPt(LocalDate.of(2026, 12, 31))).isTrue();
    assertThat(pt.mayLicensedPt(LocalDate.of(2027, 1, 1))).isFalse();
    for (Credential other :
        List.of(
            Credential.PTA,
            Credential.STUDENT_PT,
            Credential.ATHLETIC_TRAINER,
            Credential.AIDE,
            Credential.NONE)) {
      StaffView someone =
          new StaffView(
              1L,
              "r",
              "N",
              "N",
              other,
              null,
              null,
              Roles.THERAPIST,
              null,
              false,
              true,
              List.of(),
              0);
      assertThat(someone.mayLicensedPt(LocalDate.of(2026, 12, 31))).as(other.word()).isFalse();
    }
  }

  @Test
  void whatHappensToAnAccountStandsInTheTrail() {
    Member manager = member(Roles.MANAGER);
    Member member = member(Roles.FRONT_DESK);
    Crew.signIn(member);
    crew.as(manager.id(), () -> staff.disable(member.id()));
    List<TrailEntry> entries = trail.of(Subject.of("staff", member.id()));
    assertThat(entries)
        .extracting(TrailEntry::action)
        .containsSubsequence("disabled", "signed in", "password set", "one-time code given");
    assertThat(entries.get(0).by()).isEqualTo("Person " + manager.username());
    assertThat(entries.get(1).by()).isEqualTo("Person " + member.username());
    assertThat(entries.toString()).doesNotContain("$argon2id");
  }

  private static String weaker(String password) {
    org.bouncycastle.crypto.generators.Argon2BytesGenerator generator =
        new org.bouncycastle.crypto.generators.Argon2BytesGenerator();
    byte[] salt = "0123456789abcdef".getBytes(java.nio.charset.StandardCharsets.US_ASCII);
    generator.init(
        new org.bouncycastle.crypto.params.Argon2Parameters.Builder(
                org.bouncycastle.crypto.params.Argon2Parameters.ARGON2_id)
            .withVersion(19)
            .withMemoryAsKB(1024)
            .withIterations(1)
            .withParallelism(1)
            .withSalt(salt)
            .build());
    byte[] hash = new byte[32];
    generator.generateBytes(password.getBytes(java.nio.charset.StandardCharsets.UTF_8), hash);
    java.util.Base64.Encoder encoder = java.util.Base64.getEncoder().withoutPadding();
    return "$argon2id$v=19$m=1024,t=1,p=1$"
        + encoder.encodeToString(salt)
        + "$"
        + encoder.encodeToString(hash);
  }
}
