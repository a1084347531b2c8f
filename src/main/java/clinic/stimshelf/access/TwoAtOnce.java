package clinic.stimshelf.access;

import java.time.Duration;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;

/**
 * Lets two hashes be computed at a time: each takes 19 MB and a processor for tens of milliseconds,
 * and a crowd of them would choke everything else.
 */
final class TwoAtOnce {
  private final Semaphore places = new Semaphore(2, true);
  private final Duration patience;

  TwoAtOnce(Duration patience) {
    this.patience = patience;
  }

  /**
   * Does the work once there is a place.
   *
   * @throws NotLetIn if there is none for too long
   */
  <T> T run(Supplier<T> work) {
    try {
      if (!places.tryAcquire(patience.toMillis(), TimeUnit.MILLISECONDS)) {
        throw NotLetIn.wait(Duration.ofSeconds(2));
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw NotLetIn.wait(Duration.ofSeconds(2));
    }
    try {
      return work.get();
    } finally {
      places.release();
    }
  }
}
