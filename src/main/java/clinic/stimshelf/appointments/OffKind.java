package clinic.stimshelf.appointments;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** Why a therapist treats nobody for a while. */
enum OffKind {
  BREAK("has a break"),
  LEAVE("is on leave"),
  OTHER_WORK("does other work"),
  CALLED_OUT("was called out");

  private final String words;

  OffKind(String words) {
    this.words = words;
  }

  /** As scripts spell it: {@code called-out}. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** After a name: “is on leave”. */
  public String words() {
    return words;
  }

  /**
   * @throws IllegalArgumentException naming the kinds there are
   */
  @JsonCreator
  static OffKind of(String word) {
    for (OffKind kind : values()) {
      if (kind.word().equals(word)) {
        return kind;
      }
    }
    throw new IllegalArgumentException(
        "“" + word + "” is no reason. Possible: break, leave, other-work, called-out.");
  }
}
