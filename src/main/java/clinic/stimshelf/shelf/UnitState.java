package clinic.stimshelf.shelf;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** Where a unit stands between two uses. */
public enum UnitState {
  READY("ready", "Reserve it or check it out."),
  RESERVED("reserved", "Release it first if it is to serve something else."),
  IN_TREATMENT("in treatment", "End the treatment first."),
  ON_LOAN("on loan", "Check it in first."),
  TO_WIPE("to wipe", "Wipe it and let the contact time pass."),
  TO_INSPECT("to inspect", "Inspect it first."),
  OUT_OF_SERVICE("out of service", "Send it to inspection once the reason is dealt with."),
  MISSING("missing", "Enter it as found, or retire it."),
  RETIRED("retired", "Take another unit.");

  private final String words;
  private final String next;

  UnitState(String words, String next) {
    this.words = words;
    this.next = next;
  }

  /** As scripts spell it: {@code in-treatment}. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** As people read it: “in treatment”. */
  public String words() {
    return words;
  }

  /** What to do with a unit that stands here, as a sentence. */
  public String next() {
    return next;
  }

  static UnitState byWord(String word) {
    for (UnitState state : values()) {
      if (state.word().equals(word)) {
        return state;
      }
    }
    return null;
  }
}
