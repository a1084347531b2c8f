package clinic.stimshelf.remind;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Optional;

/** The links patients are given: 192 random bits each, of which only a hash is kept. */
@ApplicationScoped
class Tokens {
  /** More than the 128 bits that OWASP ASVS 5.0 (11.5.1) asks for. */
  private static final int BYTES = 24;

  private static final Duration STOP_LASTS = Duration.ofDays(365);

  @Inject PatientTokens rows;
  @Inject SecureRandom random;
  @Inject Clock clock;

  /** A way to the patient's page, for as long as the loan is open and no longer than this. */
  @Transactional
  String page(Long patientId, Long loanId, Instant endsAt) {
    PatientToken row = new PatientToken();
    row.purpose = PatientToken.Purpose.PAGE;
    row.loanId = loanId;
    return keep(row, patientId, endsAt);
  }

  /** A way out of messages by this route to this address. */
  @Transactional
  String stop(Long patientId, Route route, String address) {
    PatientToken row = new PatientToken();
    row.purpose = PatientToken.Purpose.STOP;
    row.route = route;
    row.address = address;
    return keep(row, patientId, clock.instant().plus(STOP_LASTS));
  }

  private String keep(PatientToken row, Long patientId, Instant endsAt) {
    byte[] bytes = new byte[BYTES];
    random.nextBytes(bytes);
    String token = Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    row.hash = hash(token);
    row.patientId = patientId;
    row.madeAt = clock.instant();
    row.endsAt = endsAt;
    rows.persist(row);
    return token;
  }

  /** What the token opens, if it was given out for this, has not ended and was not revoked. */
  @Transactional
  Optional<PatientToken> open(PatientToken.Purpose purpose, String token) {
    return rows.find(
            "hash = ?1 and purpose = ?2 and revokedAt is null and endsAt > ?3",
            hash(token),
            purpose,
            clock.instant())
        .firstResultOptional();
  }

  @Transactional
  int revoke(Long loanId) {
    return rows.update(
        "revokedAt = ?1 where loanId = ?2 and purpose = ?3 and revokedAt is null",
        clock.instant(),
        loanId,
        PatientToken.Purpose.PAGE);
  }

  /** Links of the loan that still open its page. */
  @Transactional
  long open(Long loanId) {
    return rows.count(
        "loanId = ?1 and purpose = ?2 and revokedAt is null and endsAt > ?3",
        loanId,
        PatientToken.Purpose.PAGE,
        clock.instant());
  }

  static String hash(String token) {
    try {
      return HexFormat.of()
          .formatHex(
              MessageDigest.getInstance("SHA-256").digest(token.getBytes(StandardCharsets.UTF_8)));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("SHA-256 is part of every Java", e);
    }
  }
}
