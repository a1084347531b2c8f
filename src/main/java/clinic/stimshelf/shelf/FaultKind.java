package clinic.stimshelf.shelf;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** What befell a unit, so that it must be inspected before it serves again. */
public enum FaultKind {
  FAULT("does not work as it should"),
  DROP("was dropped or got wet"),
  SWOLLEN("battery is swollen, hot or leaking"),
  FAILED_INSPECTION("failed an inspection"),
  FAILED_TEST("failed a safety test");

  private final String words;

  FaultKind(String words) {
    this.words = words;
  }

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public String words() {
    return words;
  }

  static FaultKind byWord(String word) {
    for (FaultKind kind : values()) {
      if (kind.word().equals(word)) {
        return kind;
      }
    }
    return null;
  }
}
