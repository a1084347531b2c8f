package clinic.stimshelf.shelf;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** What a unit is used for: a loan to a patient's home, or a treatment in the clinic. */
public enum UseKind {
  LOAN,
  TREATMENT;

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
