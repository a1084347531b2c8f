package clinic.stimshelf.access;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javax.crypto.Cipher;
import javax.crypto.spec.GCMParameterSpec;
import javax.crypto.spec.SecretKeySpec;

/**
 * Forms that were typed while their session ran out. What was typed is sealed (AES-256-GCM) with a
 * key made from an identifier that only the browser's cookie holds, so the database alone cannot
 * show it.
 */
@ApplicationScoped
class HeldForms {
  private static final int NONCE = 12;
  private static final int TAG_BITS = 128;

  @Inject HeldFormRows rows;

  @Inject Clock clock;

  @Inject SecureRandom random;

  @Inject AccessConfig config;

  @Inject ObjectMapper json;

  /** A name and what stood in it. */
  record Field(String name, String value) {

    /** The name as words, for the page that shows what was kept. */
    public String words() {
      String spaced =
          name.replaceAll("([a-z])([A-Z])", "$1 $2").replace('-', ' ').replace('_', ' ');
      return spaced.isEmpty()
          ? ""
          : spaced.substring(0, 1).toUpperCase(Locale.ROOT)
              + spaced.substring(1).toLowerCase(Locale.ROOT);
    }
  }

  /**
   * A kept form.
   *
   * @param action the path it was sent to
   * @param page the page it stood on, to be opened again; may be empty
   */
  record Kept(String action, String page, List<Field> fields, Instant at) {}

  /** Keeps a form and gives the identifier for the cookie. Passwords and tokens are not kept. */
  @Transactional
  String keep(String action, String page, List<Field> fields) {
    String token = Secrets.token(random);
    HeldForm row = new HeldForm();
    row.tokenHash = Secrets.sha256(token);
    row.heldAt = clock.instant();
    row.sealed =
        seal(
            token,
            new Kept(
                action, page, fields.stream().filter(HeldForms::mayKeep).toList(), row.heldAt));
    rows.persist(row);
    return token;
  }

  /** The form that belongs to the cookie's identifier, while it is kept. */
  @Transactional
  Optional<Kept> find(String token) {
    if (token == null || token.isEmpty()) {
      return Optional.empty();
    }
    return rows.find(
            "tokenHash = ?1 and heldAt > ?2",
            Secrets.sha256(token),
            clock.instant().minus(config.keepForms()))
        .firstResultOptional()
        .map(row -> open(token, row.sealed));
  }

  @Transactional
  void drop(String token) {
    if (token != null) {
      rows.delete("tokenHash", Secrets.sha256(token));
    }
  }

  @Transactional
  long forget(Duration olderThan) {
    return rows.delete("heldAt < ?1", clock.instant().minus(olderThan));
  }

  private static boolean mayKeep(Field field) {
    String name = field.name().toLowerCase(Locale.ROOT);
    return !name.equals(ForgeryGuard.FIELD)
        && !name.startsWith("_")
        && !name.contains("password")
        && !name.equals("secret");
  }

  private String seal(String token, Kept kept) {
    try {
      byte[] nonce = new byte[NONCE];
      random.nextBytes(nonce);
      byte[] sealed =
          cipher(Cipher.ENCRYPT_MODE, token, nonce).doFinal(json.writeValueAsBytes(kept));
      return Base64.getEncoder()
          .encodeToString(
              ByteBuffer.allocate(NONCE + sealed.length).put(nonce).put(sealed).array());
    } catch (GeneralSecurityException | JsonProcessingException e) {
      throw new IllegalStateException("A form could not be kept", e);
    }
  }

  private Kept open(String token, String sealed) {
    try {
      byte[] bytes = Base64.getDecoder().decode(sealed);
      byte[] nonce = java.util.Arrays.copyOf(bytes, NONCE);
      byte[] plain =
          cipher(Cipher.DECRYPT_MODE, token, nonce).doFinal(bytes, NONCE, bytes.length - NONCE);
      return json.readValue(new String(plain, StandardCharsets.UTF_8), Kept.class);
    } catch (GeneralSecurityException | JsonProcessingException e) {
      throw new IllegalStateException("A kept form does not open", e);
    }
  }

  private static Cipher cipher(int mode, String token, byte[] nonce)
      throws GeneralSecurityException {
    Cipher cipher = Cipher.getInstance("AES/GCM/NoPadding");
    cipher.init(
        mode,
        new SecretKeySpec(Secrets.hmac(Secrets.digest(token), "stimshelf kept form"), "AES"),
        new GCMParameterSpec(TAG_BITS, nonce));
    return cipher;
  }
}
