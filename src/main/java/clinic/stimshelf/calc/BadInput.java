package clinic.stimshelf.calc;

/**
 * An argument that a calculation cannot take. The message names the value and what is allowed;
 * {@link #field()} names the argument in the words of the caller, so that a form can mark it.
 */
public final class BadInput extends IllegalArgumentException {

  private static final long serialVersionUID = 1L;

  private final String field;

  /**
   * @param field the argument's name, for example {@code onSeconds}
   * @param message what it was and what is allowed
   */
  public BadInput(String field, String message) {
    super(message);
    this.field = field;
  }

  /** The name of the argument that was refused. */
  public String field() {
    return field;
  }
}
