package clinic.stimshelf.web;

/**
 * Why something cannot be done.
 *
 * @param field the field it is about, or {@code null} for the whole action
 * @param message what stands against it, as a sentence
 * @param cure the step that cures it, as a sentence, or {@code null} where the message says it
 */
public record Reason(String field, String message, String cure) {

  /** Message and cure in one line. */
  public String words() {
    return cure == null ? message : message + " " + cure;
  }
}
