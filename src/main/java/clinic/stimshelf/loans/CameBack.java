package clinic.stimshelf.loans;

import clinic.stimshelf.web.Spelled;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** How a part came back. */
public enum CameBack {
  PRESENT,
  OWED,
  DAMAGED;

  /** As scripts spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /**
   * @throws IllegalArgumentException naming what is allowed
   */
  @JsonCreator
  public static CameBack of(String word) {
    return Spelled.one("What became of a part", values(), CameBack::word, word);
  }

  /** As people read it. */
  public String words() {
    return switch (this) {
      case PRESENT -> "present";
      case OWED -> "not here: owed";
      case DAMAGED -> "damaged";
    };
  }
}
