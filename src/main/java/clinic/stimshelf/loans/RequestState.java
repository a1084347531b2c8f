package clinic.stimshelf.loans;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** What became of a request. */
public enum RequestState {
  OPEN,
  RESERVED,
  FILLED,
  WITHDRAWN;

  /** As scripts spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
