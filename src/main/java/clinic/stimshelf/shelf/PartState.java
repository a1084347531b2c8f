package clinic.stimshelf.shelf;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** Whether a part is with its kit. */
public enum PartState {
  PRESENT,
  MISSING,
  REMOVED;

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
