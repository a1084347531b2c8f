package clinic.stimshelf.remind;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** How something reaches a patient, or who sees to it. */
public enum Route {
  EMAIL("e-mail"),
  TEXT("text message"),
  CALL("call"),
  LETTER("letter"),
  /** Nothing for the patient: something for the clinic to decide. */
  TASK("task");

  private final String words;

  Route(String words) {
    this.words = words;
  }

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public String words() {
    return words;
  }

  /** Whether the program sends it; people do the rest. */
  public boolean sent() {
    return this == EMAIL || this == TEXT;
  }
}
