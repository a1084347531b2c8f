package clinic.stimshelf.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.security.SecureRandom;
import org.junit.jupiter.api.Test;

class PasswordHashTest {
  private final SecureRandom random = new SecureRandom();

  /**
   * Encoded hash of "password" with the salt "somesalt", t=2, m=65536, p=1, version 19: from the
   * tests of the argon2 reference implementation (file test.c), written down from memory and
   * confirmed by this run, which could not come out so by chance.
   */
  @Test
  void readsWhatTheReferenceImplementationWrites() {
    PasswordHash reference =
        PasswordHash.parse(
            "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc");
    assertThat(reference.matches("password")).isTrue();
    assertThat(reference.matches("Password")).isFalse();
  }

  /** Parameters: OWASP Password Storage Cheat Sheet, first argon2id line (ASVS 5.0, 11.4.2). */
  @Test
  void writesItsParametersIntoTheString() {
    String phc = PasswordHash.of("seven ferns along a quiet canal", random).phc();
    assertThat(phc)
        .matches("\\$argon2id\\$v=19\\$m=19456,t=2,p=1\\$[A-Za-z0-9+/]{22}\\$[A-Za-z0-9+/]{43}");
    assertThat(PasswordHash.parse(phc).phc()).isEqualTo(phc);
    assertThat(PasswordHash.parse(phc).outdated()).isFalse();
  }

  @Test
  void saltsEveryHashAnew() {
    assertThat(PasswordHash.of("seven ferns along", random).phc())
        .isNotEqualTo(PasswordHash.of("seven ferns along", random).phc());
  }

  @Test
  void knowsAHashThatIsToBeRenewed() {
    assertThat(
            PasswordHash.parse(
                    "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc")
                .outdated())
        .isTrue();
  }

  /** Bcrypt forgets what comes after 72 bytes; here the last of 73 counts (ASVS 5.0, 6.2.8). */
  @Test
  void theWholePasswordCounts() {
    PasswordHash hash = PasswordHash.of("x".repeat(72) + "a", random);
    assertThat(hash.matches("x".repeat(72) + "a")).isTrue();
    assertThat(hash.matches("x".repeat(72) + "b")).isFalse();
  }

  /** NIST SP 800-63B-4: Unicode is normalised before hashing. */
  @Test
  void aLetterTypedInTwoWaysIsOneLetter() {
    assertThat(
            PasswordHash.of("Caf\u00e9 am Kanal, sieben Uhr", random)
                .matches("Cafe\u0301 am Kanal, sieben Uhr"))
        .isTrue();
  }

  @Test
  void refusesAHashOfAnotherKind() {
    assertThatThrownBy(
            () ->
                PasswordHash.parse("$2b$12$abcdefghijklmnopqrstuv0123456789012345678901234567890"))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
