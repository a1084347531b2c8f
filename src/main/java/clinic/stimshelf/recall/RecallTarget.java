package clinic.stimshelf.recall;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** What a recall is about. */
public enum RecallTarget {
  LOT,
  SERIALS,
  UNIT;

  /** As scripts spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
