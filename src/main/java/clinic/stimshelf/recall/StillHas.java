package clinic.stimshelf.recall;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** Whether somebody still has what is recalled. The more certain stands first. */
public enum StillHas {
  YES("has it now"),
  /**
   * Packs that were given and never brought back, after the loan they went with had ended. Packs
   * that somebody saw opened are no longer such packs.
   */
  MAYBE("may still have packs"),
  NO("had it");

  private final String words;

  StillHas(String words) {
    this.words = words;
  }

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public String words() {
    return words;
  }
}
