package clinic.stimshelf.loans;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** Where a loan stands. */
public enum LoanState {
  OUT,
  RETURNED,
  MISSING,
  /** The unit never came back and is written off. */
  LOST,
  VOID;

  /** Whether the unit is still with the patient, known or not. */
  public boolean open() {
    return this == OUT || this == MISSING;
  }

  /** As scripts spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
