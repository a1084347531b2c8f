package clinic.stimshelf.program;

import clinic.stimshelf.web.Spelled;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

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
    return Spelled.one("The reason", values(), HoldReason::word, word);
  }
}
