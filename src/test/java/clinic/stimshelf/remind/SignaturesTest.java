package clinic.stimshelf.remind;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.Base64;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** The gateway's signatures against the examples of the standards. */
class SignaturesTest {
  private static final Instant NOW = Instant.parse("2026-03-03T15:00:00Z");

  /** RFC 9421, appendix B.2.5: signing a request with hmac-sha256 (from memory; it computes). */
  @Test
  void hmac_sha256_as_in_rfc_9421() {
    String base =
        "\"date\": Tue, 20 Apr 2021 02:07:55 GMT\n"
            + "\"@authority\": example.com\n"
            + "\"content-type\": application/json\n"
            + "\"@signature-params\": (\"date\" \"@authority\" \"content-type\")"
            + ";created=1618884473;keyid=\"test-shared-secret\"";
    byte[] key =
        Base64.getDecoder()
            .decode(
                "uzvJfB4u3N0Jy4T7NZ75MDVcr8zSTInedJtkgcu46YW4XByzNJjxBdtjUkdJPBtbmHhIDi6pcl8jsasjlTMtDQ==");

    assertThat(Signatures.mac(key, base)).isEqualTo("pxcQw6G3AjtMBQjwo8XzkZf/bws5LelbaMk5rGIGtE8=");
  }

  /** RFC 9530, appendix B.1 (from memory; it computes). */
  @Test
  void digest_as_in_rfc_9530() {
    assertThat(Signatures.digest("{\"hello\": \"world\"}\n"))
        .isEqualTo("sha-256=:RK/0qy18MlBSVnWgjwz6lZEWjP/lF5HF9bvEF8FabDg=:");
  }

  @Test
  void holds_for_what_was_signed_and_for_nothing_else() {
    Map<String, String> signed = Signatures.sign("secret", "/texts", "{}", NOW);
    String input = signed.get("Signature-Input");
    String signature = signed.get("Signature");

    assertThat(Signatures.holds("secret", "/texts", "{}", input, signature, NOW)).isTrue();
    assertThat(Signatures.holds("other", "/texts", "{}", input, signature, NOW)).isFalse();
    assertThat(Signatures.holds("secret", "/text", "{}", input, signature, NOW)).isFalse();
    assertThat(Signatures.holds("secret", "/texts", "{ }", input, signature, NOW)).isFalse();
    assertThat(Signatures.holds("secret", "/texts", "{}", null, signature, NOW)).isFalse();
    assertThat(Signatures.holds("secret", "/texts", "{}", input, null, NOW)).isFalse();
    assertThat(Signatures.holds("secret", "/texts", "{}", input, signature, NOW.plusSeconds(301)))
        .as("an old copy")
        .isFalse();
    assertThat(
            Signatures.holds(
                "secret", "/texts", "{}", input.replace("\"@path\" ", ""), signature, NOW))
        .as("with less covered")
        .isFalse();
  }
}
