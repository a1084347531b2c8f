package clinic.stimshelf.shelf;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** What a unit's display tells about its output. Current density is known only in milliamperes. */
public enum OutputScale {
  MILLIAMPERES("milliamperes"),
  LEVEL("a level without unit");

  private final String words;

  OutputScale(String words) {
    this.words = words;
  }

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public String words() {
    return words;
  }

  static OutputScale byWord(String word) {
    for (OutputScale scale : values()) {
      if (scale.word().equals(word)) {
        return scale;
      }
    }
    return null;
  }
}
