package clinic.stimshelf.access;

import io.quarkus.security.AuthenticationFailedException;
import java.time.Duration;

/** Signing in failed, in words that don't tell whether the account exists. */
class NotLetIn extends RuntimeException {
  private final int status;
  private final transient Duration retryAfter;

  private NotLetIn(int status, String message, Duration retryAfter) {
    super(message, null, false, false);
    this.status = status;
    this.retryAfter = retryAfter;
  }

  static NotLetIn wrong() {
    return new NotLetIn(
        401, "That name and password don't go together. Check both and try again.", null);
  }

  static NotLetIn wrongKey() {
    return new NotLetIn(401, "This access key is unknown, revoked or its account ended.", null);
  }

  static NotLetIn unreadable() {
    return new NotLetIn(
        401, "The Authorization header is neither a Bearer access key nor Basic.", null);
  }

  static NotLetIn plain() {
    return new NotLetIn(
        403,
        "Passwords and keys are not taken over an unencrypted connection from another machine."
            + " Use https, or set stimshelf.access.plain-http=true where the network encrypts by"
            + " itself.",
        null);
  }

  static NotLetIn wait(Duration wait) {
    Duration whole = Duration.ofSeconds(Math.max(1, wait.plusMillis(999).toSeconds()));
    return new NotLetIn(
        429, "Too many attempts in a row. Wait " + words(whole) + ", then try again.", whole);
  }

  /** As the framework's checks expect it. */
  AuthenticationFailedException asFailure() {
    return new AuthenticationFailedException(getMessage(), this);
  }

  /** What stands behind a failure of those checks. */
  static NotLetIn behind(Throwable failure) {
    for (Throwable cause = failure; cause != null; cause = cause.getCause()) {
      if (cause instanceof NotLetIn known) {
        return known;
      }
    }
    return wrong();
  }

  int status() {
    return status;
  }

  /** How long to wait, {@code null} where waiting doesn't help. */
  Duration retryAfter() {
    return retryAfter;
  }

  private static String words(Duration wait) {
    long seconds = wait.toSeconds();
    if (seconds < 60) {
      return seconds == 1 ? "a second" : seconds + " seconds";
    }
    long minutes = (seconds + 59) / 60;
    return minutes == 1 ? "a minute" : minutes + " minutes";
  }
}
