package clinic.stimshelf.program;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** Why nobody may go on before the patient is screened again. Common practice, no source. */
enum HoldReason {
  CLOT("a blood clot, or a suspicion of one"),
  IMPLANT("a new implant or body-worn device"),
  PREGNANCY("a pregnancy"),
  READMISSION("admitted to hospital again"),
  FALL("a fall"),
  OTHER("another reason");

  private final String words;

  HoldReason(String words) {
    this.words = words;
  }

  /** As scripts spell it. */
  @JsonValue
  String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  String words() {
    return words;
  }

  /**
   * @throws IllegalArgumentException if it is none of them
   */
  static HoldReason of(String word) {
    return Arrays.stream(values())
        .filter(one -> one.word().equals(word))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "The reason is one of "
                        + Arrays.stream(values())
                            .map(HoldReason::word)
                            .collect(Collectors.joining(", "))
                        + "."));
  }
}
