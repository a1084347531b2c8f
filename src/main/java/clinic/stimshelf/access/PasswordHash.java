package clinic.stimshelf.access;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.text.Normalizer;
import java.util.Base64;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.bouncycastle.crypto.generators.Argon2BytesGenerator;
import org.bouncycastle.crypto.params.Argon2Parameters;

/**
 * A password as it is stored: argon2id (RFC 9106) in the PHC string form. Memory, passes and lanes
 * follow the OWASP Password Storage Cheat Sheet of 2026-08: 19456 KiB, 2, 1.
 */
final class PasswordHash {
  static final int MEMORY_KIB = 19_456;
  static final int PASSES = 2;
  static final int LANES = 1;
  private static final int SALT_BYTES = 16;
  private static final int HASH_BYTES = 32;
  private static final Pattern PHC =
      Pattern.compile(
          "\\$argon2id\\$v=19\\$m=(\\d{1,7}),t=(\\d{1,3}),p=(\\d{1,3})"
              + "\\$([A-Za-z0-9+/]+)\\$([A-Za-z0-9+/]+)");

  private final int memory;
  private final int passes;
  private final int lanes;
  private final byte[] salt;
  private final byte[] hash;

  private PasswordHash(int memory, int passes, int lanes, byte[] salt, byte[] hash) {
    this.memory = memory;
    this.passes = passes;
    this.lanes = lanes;
    this.salt = salt;
    this.hash = hash;
  }

  /** Hashes a new password; costs some 20 MB and tens of milliseconds. */
  static PasswordHash of(String password, SecureRandom random) {
    byte[] salt = new byte[SALT_BYTES];
    random.nextBytes(salt);
    return new PasswordHash(
        MEMORY_KIB,
        PASSES,
        LANES,
        salt,
        argon2id(password, salt, MEMORY_KIB, PASSES, LANES, HASH_BYTES));
  }

  /**
   * Reads a stored hash.
   *
   * @throws IllegalArgumentException if it is not an argon2id string of version 19
   */
  static PasswordHash parse(String phc) {
    Matcher matcher = PHC.matcher(phc);
    if (!matcher.matches()) {
      throw new IllegalArgumentException("A stored password is not an argon2id string.");
    }
    return new PasswordHash(
        Integer.parseInt(matcher.group(1)),
        Integer.parseInt(matcher.group(2)),
        Integer.parseInt(matcher.group(3)),
        Base64.getDecoder().decode(matcher.group(4)),
        Base64.getDecoder().decode(matcher.group(5)));
  }

  /** Whether the password is the one; the whole of it counts. */
  boolean matches(String password) {
    return MessageDigest.isEqual(
        hash, argon2id(password, salt, memory, passes, lanes, hash.length));
  }

  /** Whether it was made with other parameters than today's. */
  boolean outdated() {
    return memory != MEMORY_KIB || passes != PASSES || lanes != LANES || hash.length != HASH_BYTES;
  }

  String phc() {
    Base64.Encoder encoder = Base64.getEncoder().withoutPadding();
    return "$argon2id$v=19$m="
        + memory
        + ",t="
        + passes
        + ",p="
        + lanes
        + "$"
        + encoder.encodeToString(salt)
        + "$"
        + encoder.encodeToString(hash);
  }

  /** The form in which a password is measured, compared and hashed: composed (NFC). */
  static String normal(String password) {
    return Normalizer.normalize(password, Normalizer.Form.NFC);
  }

  private static byte[] argon2id(
      String password, byte[] salt, int memory, int passes, int lanes, int length) {
    Argon2BytesGenerator generator = new Argon2BytesGenerator();
    generator.init(
        new Argon2Parameters.Builder(Argon2Parameters.ARGON2_id)
            .withVersion(Argon2Parameters.ARGON2_VERSION_13)
            .withMemoryAsKB(memory)
            .withIterations(passes)
            .withParallelism(lanes)
            .withSalt(salt)
            .build());
    byte[] out = new byte[length];
    generator.generateBytes(normal(password).getBytes(StandardCharsets.UTF_8), out);
    return out;
  }
}
