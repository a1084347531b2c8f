package clinic.stimshelf.loans;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** What is owed. */
public enum OwedKind {
  PACKS,
  PART;

  /** As scripts spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
