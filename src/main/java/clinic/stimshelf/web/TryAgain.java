package clinic.stimshelf.web;

/** Another transaction came first; a new one will see what it did. {@link Retry} runs it. */
public class TryAgain extends RuntimeException {

  public TryAgain(String message, Throwable cause) {
    super(message, cause);
  }
}
