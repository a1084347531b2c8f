package clinic.stimshelf.people;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** How a patient wants to be reached. */
public enum ReachBy {
  TEXT("text message"),
  EMAIL("e-mail"),
  CALL("call"),
  LETTER("letter");

  private final String words;

  ReachBy(String words) {
    this.words = words;
  }

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public String words() {
    return words;
  }

  /**
   * @throws IllegalArgumentException naming the ways there are
   */
  @JsonCreator
  public static ReachBy of(String word) {
    for (ReachBy way : values()) {
      if (way.word().equals(word)) {
        return way;
      }
    }
    throw new IllegalArgumentException(
        "“" + word + "” is no way to reach a patient. Possible: text, email, call, letter.");
  }
}
