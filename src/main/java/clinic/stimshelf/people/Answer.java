package clinic.stimshelf.people;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** An answer to a screening question. Whoever is not sure has said neither yes nor no. */
public enum Answer {
  NO("no"),
  YES("yes"),
  /** Yes, in the weaker way that the question names. */
  YES_BUT("yes, but"),
  /** Counts as a yes. */
  NOT_SURE("not sure");

  private final String words;

  Answer(String words) {
    this.words = words;
  }

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public String words() {
    return words;
  }

  /**
   * @throws IllegalArgumentException naming the answers there are
   */
  @JsonCreator
  public static Answer of(String word) {
    for (Answer answer : values()) {
      if (answer.word().equals(word)) {
        return answer;
      }
    }
    throw new IllegalArgumentException(
        "“" + word + "” is no answer. Possible: no, yes, yes-but, not-sure.");
  }
}
