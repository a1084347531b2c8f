package clinic.stimshelf.people;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** What a consent is about. */
public enum ConsentKind {
  LOAN("taking a unit home"),
  TREATMENT("treatment with stimulation"),
  REMINDERS("messages about loan and appointments");

  private final String words;

  ConsentKind(String words) {
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
   * @throws IllegalArgumentException naming the kinds there are
   */
  @JsonCreator
  public static ConsentKind of(String word) {
    for (ConsentKind kind : values()) {
      if (kind.word().equals(word)) {
        return kind;
      }
    }
    throw new IllegalArgumentException(
        "“" + word + "” is no kind of consent. Possible: loan, treatment, reminders.");
  }
}
