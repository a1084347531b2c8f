package clinic.stimshelf.remind;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * HTTP message signatures by RFC 9421 with {@code hmac-sha256}, over method, path, type and the
 * body's digest (RFC 9530). Both sides sign with the same secret.
 */
final class Signatures {
  static final String COVERED = "(\"@method\" \"@path\" \"content-type\" \"content-digest\")";
  private static final String TYPE = "application/json";

  /** An older signature may be somebody's copy. */
  private static final Duration FRESH = Duration.ofMinutes(5);

  private static final Pattern INPUT =
      Pattern.compile(
          "sig1=(\\(\"@method\" \"@path\" \"content-type\" \"content-digest\"\\)"
              + ";created=(\\d{1,12});keyid=\"[!#-~]{1,64}\"(?:;alg=\"hmac-sha256\")?)");
  private static final Pattern SIGNATURE = Pattern.compile("sig1=:([A-Za-z0-9+/=]{44}):");

  private Signatures() {}

  /** The headers that sign a POST of this body. */
  static Map<String, String> sign(String secret, String path, String body, Instant now) {
    String parameters =
        COVERED + ";created=" + now.getEpochSecond() + ";keyid=\"stimshelf\";alg=\"hmac-sha256\"";
    Map<String, String> headers = new LinkedHashMap<>();
    headers.put("Content-Type", TYPE);
    headers.put("Content-Digest", digest(body));
    headers.put("Signature-Input", "sig1=" + parameters);
    headers.put(
        "Signature", "sig1=:" + mac(bytes(secret), base(path, digest(body), parameters)) + ":");
    return headers;
  }

  /** Whether the headers sign a POST of this body, with this secret, just now. */
  static boolean holds(
      String secret, String path, String body, String input, String signature, Instant now) {
    Matcher said = INPUT.matcher(input == null ? "" : input);
    Matcher shown = SIGNATURE.matcher(signature == null ? "" : signature);
    if (!said.matches() || !shown.matches()) {
      return false;
    }
    Instant created = Instant.ofEpochSecond(Long.parseLong(said.group(2)));
    String right = mac(bytes(secret), base(path, digest(body), said.group(1)));
    return Duration.between(created, now).abs().compareTo(FRESH) <= 0
        && MessageDigest.isEqual(bytes(right), bytes(shown.group(1)));
  }

  private static String base(String path, String digest, String parameters) {
    return "\"@method\": POST\n\"@path\": "
        + path
        + "\n\"content-type\": "
        + TYPE
        + "\n\"content-digest\": "
        + digest
        + "\n\"@signature-params\": "
        + parameters;
  }

  static String mac(byte[] key, String base) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(key, "HmacSHA256"));
      return Base64.getEncoder().encodeToString(mac.doFinal(bytes(base)));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("HmacSHA256 is part of every Java", e);
    }
  }

  static String digest(String body) {
    try {
      return "sha-256=:"
          + Base64.getEncoder()
              .encodeToString(MessageDigest.getInstance("SHA-256").digest(bytes(body)))
          + ":";
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("SHA-256 is part of every Java", e);
    }
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
