package clinic.stimshelf.recall;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** What came of an attempt to reach somebody about a recall. */
public enum ReachOutcome {
  REACHED("reached: was told and understood"),
  FAMILY("spoke with family, who passes it on"),
  VOICEMAIL("left a voicemail"),
  NO_ANSWER("no answer"),
  WRONG_NUMBER("wrong number"),
  LETTER("letter sent");

  private final String words;

  ReachOutcome(String words) {
    this.words = words;
  }

  /** As scripts spell it: {@code wrong-number}. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** As people read it. */
  public String words() {
    return words;
  }

  static Optional<ReachOutcome> find(String word) {
    return Arrays.stream(values()).filter(one -> one.word().equals(word)).findFirst();
  }

  @JsonCreator
  static ReachOutcome byWord(String word) {
    return find(word)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "An outcome is one of "
                        + Arrays.stream(values())
                            .map(ReachOutcome::word)
                            .collect(Collectors.joining(", "))
                        + "."));
  }
}
