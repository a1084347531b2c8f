package clinic.stimshelf.recall;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What happened. */
public enum IncidentKind {
  BURN("burn"),
  SKIN_REACTION("skin reaction"),
  FAULT("fault of the device"),
  OTHER("something else");

  private final String words;

  IncidentKind(String words) {
    this.words = words;
  }

  /** As scripts spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public String words() {
    return words;
  }

  static Optional<IncidentKind> find(String word) {
    return Arrays.stream(values()).filter(one -> one.word().equals(word)).findFirst();
  }

  @JsonCreator
  static IncidentKind byWord(String word) {
    return find(word)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "An incident is one of burn, skin-reaction, fault, other."));
  }
}
