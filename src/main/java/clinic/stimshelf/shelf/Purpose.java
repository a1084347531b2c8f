package clinic.stimshelf.shelf;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** What a unit may serve. */
public enum Purpose {
  HOME("home loans"),
  CLINIC("treatments in the clinic"),
  BOTH("home loans and treatments");

  private final String words;

  Purpose(String words) {
    this.words = words;
  }

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public String words() {
    return words;
  }

  boolean serves(Purpose wanted) {
    return this == BOTH || this == wanted;
  }

  /** The purpose spelled so, or {@code null}. */
  static Purpose byWord(String word) {
    for (Purpose purpose : values()) {
      if (purpose.word().equals(word)) {
        return purpose;
      }
    }
    return null;
  }
}
