package clinic.stimshelf.web;

/**
 * A clinic that has only begun: what was asked for needs something that nobody has entered yet. A
 * page says how to begin; a call gets the same words as "not found".
 */
public final class NothingYet extends NotFound {
  private final String href;
  private final String step;

  /**
   * @param message what is missing and what will stand here, as a sentence
   * @param href where the person can begin, or {@code null} if somebody else must
   * @param step the words of that link, or {@code null}
   */
  public NothingYet(String message, String href, String step) {
    super(message);
    this.href = href;
    this.step = step;
  }

  String href() {
    return href;
  }

  String step() {
    return step;
  }
}
