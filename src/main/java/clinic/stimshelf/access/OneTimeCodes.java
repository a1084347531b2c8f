package clinic.stimshelf.access;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import java.util.Optional;

/** Codes that work once and not for long. */
@ApplicationScoped
class OneTimeCodes {
  @Inject OneTimeCodeRows rows;

  @Inject Clock clock;

  @Inject SecureRandom random;

  @Inject AccessConfig config;

  /**
   * Makes a code; those given out before for the same purpose stop working.
   *
   * @param staffId whose password it sets; {@code null} for the first account
   */
  @Transactional
  String make(Long staffId) {
    if (staffId == null) {
      rows.delete("staffId is null and usedAt is null");
    } else {
      rows.delete("staffId = ?1 and usedAt is null", staffId);
    }
    String code = Secrets.code(random);
    OneTimeCode row = new OneTimeCode();
    row.staffId = staffId;
    row.codeHash = hash(code);
    row.madeAt = clock.instant();
    row.expiresAt = row.madeAt.plus(config.codeValid());
    rows.persist(row);
    return code;
  }

  /** The code's row if it still works. */
  @Transactional
  Optional<OneTimeCode> find(String code) {
    return rows.find(
            "codeHash = ?1 and usedAt is null and expiresAt > ?2", hash(code), clock.instant())
        .firstResultOptional();
  }

  /** Uses the code up; {@code false} if somebody did a moment before. */
  @Transactional
  boolean use(OneTimeCode row) {
    Instant now = clock.instant();
    return rows.update("usedAt = ?1 where id = ?2 and usedAt is null", now, row.id) == 1;
  }

  @Transactional
  long forget(Duration olderThan) {
    return rows.delete("expiresAt < ?1", clock.instant().minus(olderThan));
  }

  /** Typed with or without dashes, blanks and capitals. */
  private static String hash(String code) {
    return Secrets.sha256(
        code == null ? "" : code.toUpperCase(Locale.ROOT).replaceAll("[^A-Z0-9]", ""));
  }
}
