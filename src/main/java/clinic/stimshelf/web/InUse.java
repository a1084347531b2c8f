package clinic.stimshelf.web;

/**
 * Somebody else's use is the sole reason against the action: 409. Says who has it, until when, and
 * what is free instead.
 */
public class InUse extends RuntimeException {

  public InUse(String message) {
    super(message);
  }
}
