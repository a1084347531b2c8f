package clinic.stimshelf.access;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.Duration;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Guessing is slowed down, working is not: OWASP ASVS 5.0, 6.3.1. */
@QuarkusTest
class ThrottleTest {
  private static final String WRONG = "nine herons under a grey bridge";

  @Inject Crew crew;
  @Inject MutableClock clock;
  @Inject FailedSignIns failures;
  @Inject Throttle throttle;

  private Member member;

  @BeforeEach
  void begin() {
    forget();
    member =
        crew.withPassword(
            Roles.FRONT_DESK, Credential.NONE, crew.location(Crew.unique("Throttle")));
    clock.advance(Duration.ZERO);
  }

  @AfterEach
  void forget() {
    QuarkusTransaction.requiringNew().run(() -> failures.deleteAll());
  }

  private static int fail(String username) {
    return Crew.postSignIn(username, WRONG).statusCode();
  }

  @Test
  void fourWrongPasswordsCostNoWaitAndTheFifthDoes() {
    for (int i = 1; i <= 5; i++) {
      assertThat(fail(member.username())).as("attempt " + i).isEqualTo(422);
    }
    Response sixth = Crew.postSignIn(member.username(), Crew.PASSWORD);
    assertThat(sixth.statusCode()).isEqualTo(429);
    assertThat(sixth.getHeader("Retry-After")).isEqualTo("1");
  }

  @Test
  void afterTheWaitTheRightPasswordWorksAndTheCountBeginsAnew() {
    for (int i = 1; i <= 5; i++) {
      fail(member.username());
    }
    clock.advance(Duration.ofSeconds(1));
    assertThat(Crew.postSignIn(member.username(), Crew.PASSWORD).statusCode()).isEqualTo(303);
    for (int i = 1; i <= 4; i++) {
      assertThat(fail(member.username())).isEqualTo(422);
    }
    assertThat(Crew.postSignIn(member.username(), Crew.PASSWORD).statusCode()).isEqualTo(303);
  }

  @Test
  void eachFurtherFailureDoublesTheWait() {
    for (int i = 1; i <= 5; i++) {
      fail(member.username());
    }
    for (int seconds = 1; seconds <= 8; seconds *= 2) {
      assertThat(Crew.postSignIn(member.username(), WRONG).getHeader("Retry-After"))
          .isEqualTo(String.valueOf(seconds));
      clock.advance(Duration.ofSeconds(seconds));
      assertThat(fail(member.username())).isEqualTo(422);
    }
  }

  @Test
  void anUnknownNameReadsAndWaitsLikeAKnownOne() {
    String unknown = Crew.unique("nobody");
    for (int i = 1; i <= 5; i++) {
      assertThat(words(unknown)).isEqualTo(words(member.username()));
    }
    assertThat(fail(unknown)).isEqualTo(429);
    assertThat(fail(member.username())).isEqualTo(429);
  }

  @Test
  void guessingManyNamesFromOneAddressIsSlowedToo() {
    for (int i = 1; i <= 20; i++) {
      fail(Crew.unique("many"));
    }
    assertThat(fail(Crew.unique("many"))).isEqualTo(429);
  }

  @Test
  void theCountsAreInTheDatabaseSoThatARestartForgetsNone() {
    fail(member.username());
    fail(member.username());
    assertThat(failures.find("failures", 2).count()).isEqualTo(2);
  }

  /**
   * NIST SP 800-63B-4: at most 100 failures in a row; a new one-time code opens the account again.
   */
  @Test
  void afterAHundredFailuresThePasswordAloneCountsNoMore() {
    for (int i = 1; i <= 100; i++) {
      throttle.failed(member.username(), "192.0.2.7");
    }
    clock.advance(Duration.ofHours(1));
    assertThat(Crew.postSignIn(member.username(), Crew.PASSWORD).statusCode()).isEqualTo(422);
  }

  @Test
  void basicIsSlowedByTheSameCount() {
    for (int i = 1; i <= 5; i++) {
      given()
          .auth()
          .preemptive()
          .basic(member.username(), WRONG)
          .get("/api/me")
          .then()
          .statusCode(401);
    }
    given()
        .auth()
        .preemptive()
        .basic(member.username(), Crew.PASSWORD)
        .get("/api/me")
        .then()
        .statusCode(429)
        .header("Retry-After", "1")
        .contentType("application/problem+json");
  }

  @Test
  void aHundredSignedInCallsInARowAreNotSlowed() {
    for (int i = 0; i < 100; i++) {
      given()
          .auth()
          .preemptive()
          .basic(member.username(), Crew.PASSWORD)
          .get("/api/me")
          .then()
          .statusCode(200);
    }
  }

  private static String words(String username) {
    return Crew.postSignIn(username, WRONG).asString().replace(username, "");
  }
}
