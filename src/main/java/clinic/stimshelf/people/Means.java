package clinic.stimshelf.people;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** On what something was answered or signed. */
public enum Means {
  PAPER,
  SCREEN;

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /**
   * @throws IllegalArgumentException naming the means there are
   */
  @JsonCreator
  public static Means of(String word) {
    for (Means means : values()) {
      if (means.word().equals(word)) {
        return means;
      }
    }
    throw new IllegalArgumentException("“" + word + "” is neither paper nor screen.");
  }
}
