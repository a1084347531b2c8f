package clinic.stimshelf.program;

import clinic.stimshelf.web.Spelled;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

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
    return Spelled.one("The choice", values(), EndChoice::word, word);
  }
}
