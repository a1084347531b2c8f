package clinic.stimshelf.program;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** Where the knowledge of a home session comes from; what people report runs high. */
public enum LogSource {
  DIARY("paper diary"),
  PHONE("by phone"),
  COUNTER("the unit's own counter"),
  CLINIC("seen at the clinic"),
  PATIENT("the patient's page");

  private final String words;

  LogSource(String words) {
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
   * @throws IllegalArgumentException if the word is none of diary, phone, counter, clinic, patient
   */
  @JsonCreator
  public static LogSource of(String word) {
    for (LogSource source : values()) {
      if (source.word().equals(word.strip().toLowerCase(Locale.ROOT))) {
        return source;
      }
    }
    throw new IllegalArgumentException(
        "“" + word + "” is none of diary, phone, counter, clinic, patient.");
  }
}
