package clinic.stimshelf.loans;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
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
    return Arrays.stream(values())
        .filter(one -> one.word().equals(word))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "What became of a part is one of "
                        + Arrays.stream(values()).map(CameBack::word).toList()
                        + "."));
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
