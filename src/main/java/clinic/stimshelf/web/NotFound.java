package clinic.stimshelf.web;

/** Nothing here has that name: 404. */
public class NotFound extends RuntimeException {

  public NotFound(String message) {
    super(message);
  }
}
