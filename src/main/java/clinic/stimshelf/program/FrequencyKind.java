package clinic.stimshelf.program;

import com.fasterxml.jackson.annotation.JsonValue;

/** What the number of hertz counts. */
public enum FrequencyKind {
  /** Pulses a second. */
  PULSES("pulses a second"),
  /** Bursts of alternating current a second; a pulse width has no meaning then. */
  BURSTS("bursts a second of alternating current");

  private final String words;

  FrequencyKind(String words) {
    this.words = words;
  }

  @JsonValue
  public String word() {
    return name().toLowerCase(java.util.Locale.ROOT);
  }

  public String words() {
    return words;
  }
}
