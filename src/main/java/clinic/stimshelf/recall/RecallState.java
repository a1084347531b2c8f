package clinic.stimshelf.recall;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** Whether a recall, or an incident, still goes on. */
public enum RecallState {
  OPEN,
  CLOSED;

  /** As scripts spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
