package clinic.stimshelf.pads;

import clinic.stimshelf.web.Malformed;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** How the life of a pad set ended. */
public enum PadOutcome {
  WORN("worn"),
  DRIED_OUT("dried out"),
  WONT_STICK("would not stick"),
  /** Taken out of use although it could have gone on: its life was longer than was seen. */
  STILL_GOOD("still good"),
  LOST("lost"),
  DISCARDED("thrown away for another reason");

  private final String words;

  PadOutcome(String words) {
    this.words = words;
  }

  /** As scripts and files spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** As people read it. */
  public String words() {
    return words;
  }

  /**
   * @throws Malformed if there is no such word
   */
  @JsonCreator
  public static PadOutcome of(String word) {
    return Arrays.stream(values())
        .filter(value -> value.word().equals(word))
        .findFirst()
        .orElseThrow(
            () ->
                new Malformed(
                    "outcome",
                    "“"
                        + word
                        + "” is none of "
                        + Arrays.stream(values())
                            .map(PadOutcome::word)
                            .collect(Collectors.joining(", "))
                        + "."));
  }

  /** Whether the pads themselves had come to their end, which is what counts for their life. */
  public boolean wornOut() {
    return this == WORN || this == DRIED_OUT || this == WONT_STICK;
  }
}
