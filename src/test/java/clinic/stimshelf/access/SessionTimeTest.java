package clinic.stimshelf.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;

import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * A screen nobody touches signs out: 45 CFR 164.312(a)(2)(iii), OWASP ASVS 5.0, 7.3.1 and 7.3.2.
 */
@QuarkusTest
class SessionTimeTest {
  @Inject Crew crew;
  @Inject MutableClock clock;

  private Browser browser;

  @BeforeEach
  void signIn() {
    Member member =
        crew.withPassword(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Time")));
    clock.advance(Duration.ZERO);
    browser = Crew.signIn(member);
  }

  private int status() {
    return browser.get().get("/account").statusCode();
  }

  @Test
  void aQuarterOfAnHourWithoutASignOfLifeEndsIt() {
    clock.advance(Duration.ofMinutes(14));
    assertThat(status()).isEqualTo(200);
    clock.advance(Duration.ofMinutes(14));
    assertThat(status()).isEqualTo(200);
    clock.advance(Duration.ofMinutes(16));
    assertThat(status()).isEqualTo(303);
  }

  @Test
  void twelveHoursEndItHoweverBusyItIs() {
    for (int quarter = 0; quarter < 12 * 6 - 1; quarter++) {
      clock.advance(Duration.ofMinutes(10));
      assertThat(status()).isEqualTo(200);
    }
    clock.advance(Duration.ofMinutes(11));
    assertThat(status()).isEqualTo(303);
  }

  @Test
  void aCallThePageMakesByItselfIsNoSignOfLife() {
    clock.advance(Duration.ofMinutes(10));
    browser.get().header("X-Background", "true").get("/account").then().statusCode(200);
    clock.advance(Duration.ofMinutes(6));
    assertThat(status()).isEqualTo(303);
  }

  /** WCAG 2.2, 2.2.1: at least 20 seconds' warning, and it can be extended. */
  @Test
  void thePageWarnsInTimeAndTheSessionCanBeExtended() {
    browser
        .get()
        .get("/account")
        .then()
        .body(containsString("data-seconds=\"900\""))
        .body(containsString("data-warning=\"120\""));
    clock.advance(Duration.ofMinutes(14));
    browser
        .get()
        .header("X-Background", "true")
        .get("/session")
        .then()
        .body("secondsLeft", equalTo(60));
    for (int i = 0; i < 10; i++) {
      browser.get().header("X-CSRF", browser.csrf()).post("/session").then().statusCode(200);
      clock.advance(Duration.ofMinutes(14));
    }
    assertThat(status()).isEqualTo(200);
  }
}
