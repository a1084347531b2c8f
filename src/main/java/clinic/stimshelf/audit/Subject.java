package clinic.stimshelf.audit;

/**
 * What an entry of the trail is about.
 *
 * @param kind the noun: unit, loan, patient, program, pad-lot, staff, location, …
 * @param id its tag, code or number
 */
public record Subject(String kind, String id) {

  public static Subject of(String kind, Object id) {
    return new Subject(kind, String.valueOf(id));
  }

  /** As scripts ask for it: {@code unit:U-014}. */
  public static Subject parse(String text) {
    int colon = text.indexOf(':');
    return colon < 0
        ? new Subject(text, "")
        : new Subject(text.substring(0, colon), text.substring(colon + 1));
  }

  @Override
  public String toString() {
    return kind + ":" + id;
  }
}
