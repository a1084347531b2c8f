package clinic.stimshelf.program;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** How a program ends. Common practice, no source. */
enum EndChoice {
  GOAL_MET("goal met: the unit comes back"),
  EXTEND("extend"),
  STEP_DOWN("step down: fewer days"),
  CLINIC_ONLY("in the clinic only: the unit comes back"),
  OWN_UNIT("on with the patient’s own unit"),
  RENTED_UNIT("on with a rented unit");

  private final String words;

  EndChoice(String words) {
    this.words = words;
  }

  /** As scripts spell it: {@code goal-met}. */
  @JsonValue
  String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  String words() {
    return words;
  }

  /** Whether a new version must follow, which alone moves the end. */
  boolean goesOnHere() {
    return this == EXTEND || this == STEP_DOWN;
  }

  /**
   * @throws IllegalArgumentException if it is none of them
   */
  static EndChoice of(String word) {
    return Arrays.stream(values())
        .filter(one -> one.word().equals(word))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "The choice is one of "
                        + Arrays.stream(values())
                            .map(EndChoice::word)
                            .collect(Collectors.joining(", "))
                        + "."));
  }
}
