package clinic.stimshelf.loans;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** Who owes. */
public enum OwedBy {
  CLINIC,
  PATIENT;

  /** As scripts spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
