package clinic.stimshelf.access;

import io.vertx.core.http.HttpServerRequest;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;

/** Slows down whoever guesses at links or signatures, by the address the calls come from. */
@ApplicationScoped
public class Guesses {
  @Inject Throttle throttle;

  /**
   * Refuses (429) while the address has to wait.
   *
   * @param what is guessed at, in one word; each is counted by itself
   */
  public void refuse(String what, HttpServerRequest request) {
    throttle.refuseGuesses(what, Wire.address(request));
  }

  /** Counts a guess that was wrong. */
  public void failed(String what, HttpServerRequest request) {
    throttle.failedGuess(what, Wire.address(request));
  }
}
