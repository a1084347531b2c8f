package clinic.stimshelf.web;

/** Numbers of rows, which callers see as opaque strings. */
public final class Ids {
  private Ids() {}

  /**
   * @param what is looked for, as in "patient"
   * @throws NotFound if nothing can be called that
   */
  public static Long of(String id, String what) {
    if (id == null || !id.matches("\\d{1,18}")) {
      throw new NotFound("There is no " + what + " “" + id + "”.");
    }
    return Long.valueOf(id);
  }

  /**
   * @return {@code null} where nothing is named
   */
  public static Long optional(String id, String what) {
    return id == null || id.isBlank() ? null : of(id.strip(), what);
  }

  public static String text(Long id) {
    return id == null ? null : id.toString();
  }

  /**
   * A number that a field of a body holds.
   *
   * @throws Malformed naming the field, if it is missing or no number that was ever given out
   */
  public static Long field(String field, String text) {
    if (text == null || !text.strip().matches("\\d{1,18}")) {
      throw new Malformed(
          field,
          text == null || text.isBlank()
              ? "The field “" + field + "” is missing."
              : "“" + text + "” is not an id that was given out here.");
    }
    return Long.valueOf(text.strip());
  }
}
