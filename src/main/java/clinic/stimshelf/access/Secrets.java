package clinic.stimshelf.access;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HexFormat;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/** Random identifiers and what is stored of them. */
final class Secrets {
  /** 256 random bits, twice what a session identifier needs (OWASP ASVS 5.0, 7.2.3). */
  private static final int BYTES = 32;

  /** Letters and digits that are not mistaken for one another when read off a console. */
  private static final String READABLE = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789";

  private Secrets() {}

  static String token(SecureRandom random) {
    byte[] bytes = new byte[BYTES];
    random.nextBytes(bytes);
    return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
  }

  /** A code to be typed by a person: four groups of five, 100 random bits. */
  static String code(SecureRandom random) {
    StringBuilder code = new StringBuilder(23);
    for (int i = 0; i < 20; i++) {
      if (i > 0 && i % 5 == 0) {
        code.append('-');
      }
      code.append(READABLE.charAt(random.nextInt(READABLE.length())));
    }
    return code.toString();
  }

  static String sha256(String text) {
    return HexFormat.of().formatHex(digest(text));
  }

  static byte[] digest(String text) {
    try {
      return MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("SHA-256 is part of every Java", e);
    }
  }

  /** What a page's forms send back: bound to the session's identifier, which it does not reveal. */
  static String formToken(String sessionToken) {
    return Base64.getUrlEncoder()
        .withoutPadding()
        .encodeToString(hmac(digest(sessionToken), "stimshelf form"));
  }

  static byte[] hmac(byte[] key, String text) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(key, "HmacSHA256"));
      return mac.doFinal(text.getBytes(StandardCharsets.UTF_8));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("HmacSHA256 is part of every Java", e);
    }
  }

  /** Compares without telling by its time where the two differ. */
  static boolean same(String one, String other) {
    return one != null
        && other != null
        && MessageDigest.isEqual(
            one.getBytes(StandardCharsets.UTF_8), other.getBytes(StandardCharsets.UTF_8));
  }
}
