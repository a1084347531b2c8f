package clinic.stimshelf.program;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** How a home session went. */
public enum Outcome {
  DONE,
  /** Begun and broken off: the pads were worn, the session does not count as done. */
  PARTIAL,
  /** Known not to have taken place. */
  NOT;

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /**
   * @throws IllegalArgumentException if the word is none of done, partial, not
   */
  @JsonCreator
  public static Outcome of(String word) {
    for (Outcome outcome : values()) {
      if (outcome.word().equals(word.strip().toLowerCase(Locale.ROOT))) {
        return outcome;
      }
    }
    throw new IllegalArgumentException("“" + word + "” is none of done, partial, not.");
  }
}
