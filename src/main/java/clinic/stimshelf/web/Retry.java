package clinic.stimshelf.web;

import jakarta.persistence.OptimisticLockException;
import java.sql.SQLException;
import java.time.Duration;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.Set;
import java.util.concurrent.Callable;

/**
 * Runs a transaction again that the database gave up for another's sake: serialization failure
 * (40001), deadlock (40P01), lock not available (55P03) and H2's lock timeout (50200), or a row
 * that changed since it was read.
 */
public final class Retry {
  private static final Set<String> STATES = Set.of("40001", "40P01", "50200", "55P03");
  private static final int TRIES = 8;
  private static final Duration STEP = Duration.ofMillis(15);

  private Retry() {}

  /** Runs the work, at most eight times; what still fails then, or fails otherwise, is thrown. */
  public static <T> T run(Callable<T> work) throws Exception {
    for (int attempt = 1; ; attempt++) {
      try {
        return work.call();
      } catch (Exception failure) {
        if (attempt == TRIES || !worthAnotherTry(failure)) {
          throw failure;
        }
        pause(attempt);
      }
    }
  }

  /** Whether the failure, or anything behind it, is one that a new transaction may not meet. */
  static boolean worthAnotherTry(Throwable failure) {
    return search(failure, Collections.newSetFromMap(new IdentityHashMap<>()));
  }

  private static boolean search(Throwable failure, Set<Throwable> seen) {
    if (failure == null || !seen.add(failure)) {
      return false;
    }
    if (failure instanceof TryAgain || failure instanceof OptimisticLockException) {
      return true;
    }
    if (failure instanceof SQLException sql
        && (STATES.contains(sql.getSQLState()) || search(sql.getNextException(), seen))) {
      return true;
    }
    for (Throwable other : failure.getSuppressed()) {
      if (search(other, seen)) {
        return true;
      }
    }
    return search(failure.getCause(), seen);
  }

  /** Longer each time, and different for two threads, so that they do not meet again. */
  private static void pause(int attempt) throws InterruptedException {
    long apart = Thread.currentThread().getId() % 8;
    Thread.sleep(STEP.toMillis() * attempt + apart * attempt);
  }
}
