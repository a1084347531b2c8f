package clinic.stimshelf.web;

/** The thing changed since the caller read it: 412. */
public class Stale extends RuntimeException {

  public Stale(String message) {
    super(message);
  }
}
