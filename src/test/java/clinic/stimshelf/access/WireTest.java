package clinic.stimshelf.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.NullAndEmptySource;
import org.junit.jupiter.params.provider.ValueSource;

class WireTest {

  /** OWASP ASVS 5.0, 3.7.2: a sign-in leads on to our own pages only. */
  @ParameterizedTest
  @NullAndEmptySource
  @ValueSource(
      strings = {
        "//evil.example",
        "///evil.example",
        "/\\evil.example",
        "\\\\evil.example",
        "https://evil.example/",
        "https:evil.example",
        "javascript:alert(1)",
        "evil",
        "/\t/evil.example",
        "/a\r\nSet-Cookie: x=y",
        "/..//evil.example",
        "/sign-in?next=/x"
      })
  void whatLeadsElsewhereLeadsToTheStartPage(String next) {
    assertThat(Wire.ownPath(next)).isEqualTo("/");
  }

  @ParameterizedTest
  @ValueSource(strings = {"/", "/units/U-014", "/pads?location=N&page=2", "/settings/staff#new"})
  void ourOwnPagesAreReached(String next) {
    assertThat(Wire.ownPath(next)).isEqualTo(next);
  }

  @Test
  void anAddressOfTheSameSixtyFourIsTheSameVisitor() {
    assertThat(Throttle.address("2001:db8:1:2:aaaa::1"))
        .isEqualTo(Throttle.address("2001:db8:1:2:bbbb::2"))
        .isNotEqualTo(Throttle.address("2001:db8:1:3:aaaa::1"));
    assertThat(Throttle.address("192.0.2.1")).isNotEqualTo(Throttle.address("192.0.2.2"));
  }

  /** OWASP ASVS 5.0, 11.5.1. */
  @Test
  void tenThousandIdentifiersAreAllDifferent() {
    java.security.SecureRandom random = new java.security.SecureRandom();
    Set<String> seen = new java.util.HashSet<>();
    for (int i = 0; i < 10_000; i++) {
      String token = Secrets.token(random);
      assertThat(token).hasSizeGreaterThanOrEqualTo(43);
      assertThat(seen.add(token)).isTrue();
    }
  }

  /** 1 second from the fifth failure, doubling to 15 minutes. */
  @Test
  void waitingDoublesFromASecondToAQuarterOfAnHour() {
    assertThat(Throttle.delay(0)).hasSeconds(1);
    assertThat(Throttle.delay(1)).hasSeconds(2);
    assertThat(Throttle.delay(9)).hasSeconds(512);
    assertThat(Throttle.delay(10)).hasMinutes(15);
    assertThat(Throttle.delay(1000)).hasMinutes(15);
  }
}
