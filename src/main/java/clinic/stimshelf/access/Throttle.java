package clinic.stimshelf.access;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.LockModeType;
import jakarta.persistence.PersistenceException;
import jakarta.transaction.Transactional;
import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;

/**
 * Slows down guessing, per account (known or not) and per address. An account waits from the fifth
 * failure in a row on: 1 second, doubling to 15 minutes. An address, behind which a whole clinic
 * may sit, waits from the twentieth on.
 */
@ApplicationScoped
class Throttle {
  static final int ACCOUNT_FREE = 5;
  static final int ADDRESS_FREE = 20;

  /** From here on a password alone is no proof any more (NIST SP 800-63B-4: at most 100). */
  static final int ACCOUNT_MOST = 100;

  private static final Duration LONGEST = Duration.ofMinutes(15);
  private static final String ACCOUNT = "account:";
  private static final String ADDRESS = "address:";

  @Inject FailedSignIns rows;

  @Inject Clock clock;

  /**
   * For codes, which belong to no account yet.
   *
   * @throws NotLetIn while the address has to wait
   */
  @Transactional
  void refuseAddress(String address) {
    Instant now = clock.instant();
    rows.find("subject = ?1 and blockedUntil > ?2", address(address), now)
        .firstResultOptional()
        .ifPresent(
            row -> {
              throw NotLetIn.wait(Duration.between(now, row.blockedUntil));
            });
  }

  void failedAddress(String address) {
    count(address(address), ADDRESS_FREE);
  }

  /** How long this attempt has to wait; zero if not at all. */
  @Transactional
  Duration wait(String username, String address) {
    Instant now = clock.instant();
    return rows
        .list("subject in ?1 and blockedUntil > ?2", subjects(username, address), now)
        .stream()
        .map(row -> Duration.between(now, row.blockedUntil))
        .max(Duration::compareTo)
        .orElse(Duration.ZERO);
  }

  /** Whether so many attempts failed that the account's password counts no more. */
  @Transactional
  boolean worn(String username) {
    return rows.count("subject = ?1 and failures >= ?2", account(username), ACCOUNT_MOST) > 0;
  }

  /** Counts a failure and gives how many the account now has in a row. */
  int failed(String username, String address) {
    count(address(address), ADDRESS_FREE);
    return count(account(username), ACCOUNT_FREE);
  }

  /** After the right password both counts begin anew. */
  @Transactional
  void succeeded(String username, String address) {
    forget(subjects(username, address));
  }

  @Transactional
  void forgive(String username) {
    forget(List.of(account(username)));
  }

  @Transactional
  long forget(Duration olderThan) {
    return rows.delete(
        "lastFailedAt < ?1 and failures < ?2", clock.instant().minus(olderThan), ACCOUNT_MOST);
  }

  /**
   * For whoever guesses at something other than accounts, counted apart from those.
   *
   * @param what is guessed at
   * @throws NotLetIn while the address has to wait
   */
  @Transactional
  void refuseGuesses(String what, String address) {
    Instant now = clock.instant();
    // A clock that was set back must not keep anybody out until it has caught up.
    rows.find(
            "subject = ?1 and blockedUntil > ?2 and lastFailedAt <= ?2",
            what + address(address),
            now)
        .firstResultOptional()
        .ifPresent(
            row -> {
              throw NotLetIn.wait(Duration.between(now, row.blockedUntil));
            });
  }

  void failedGuess(String what, String address) {
    count(what + address(address), ADDRESS_FREE);
  }

  private void forget(List<String> subjects) {
    if (rows.count("subject in ?1", subjects) > 0) {
      rows.delete("subject in ?1", subjects);
    }
  }

  /** Two first failures at once collide on the row; the second try then finds it. */
  private int count(String subject, int free) {
    try {
      return QuarkusTransaction.requiringNew().call(() -> add(subject, free));
    } catch (PersistenceException | io.quarkus.narayana.jta.QuarkusTransactionException collided) {
      return QuarkusTransaction.requiringNew().call(() -> add(subject, free));
    }
  }

  private int add(String subject, int free) {
    FailedSignIn row =
        rows.find("subject", subject).withLock(LockModeType.PESSIMISTIC_WRITE).firstResult();
    Instant now = clock.instant();
    if (row == null) {
      row = new FailedSignIn();
      row.subject = subject;
    }
    row.failures++;
    row.lastFailedAt = now;
    if (row.failures >= free) {
      row.blockedUntil = now.plus(delay(row.failures - free));
    }
    rows.persistAndFlush(row);
    return row.failures;
  }

  /** 1, 2, 4, … seconds, at most 15 minutes. */
  static Duration delay(int doublings) {
    Duration delay = Duration.ofSeconds(1L << Math.min(doublings, 20));
    return delay.compareTo(LONGEST) < 0 ? delay : LONGEST;
  }

  private static List<String> subjects(String username, String address) {
    return List.of(account(username), address(address));
  }

  private static String account(String username) {
    return ACCOUNT + Secrets.sha256(Staff.account(username));
  }

  /** Of an IPv6 address the network's half: whoever has one of its addresses has them all. */
  static String address(String address) {
    try {
      InetAddress parsed = InetAddress.getByName(address == null ? "127.0.0.1" : address);
      return ADDRESS
          + (parsed instanceof Inet6Address
              ? HexFormat.of().formatHex(Arrays.copyOf(parsed.getAddress(), 8))
              : parsed.getHostAddress());
    } catch (UnknownHostException notAnAddress) {
      return ADDRESS + Secrets.sha256(address);
    }
  }
}
