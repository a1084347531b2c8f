package clinic.stimshelf.recall;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What it did to somebody, as far as is known. */
public enum Harm {
  NONE("nobody was harmed"),
  PASSING("it passed by itself or with simple care"),
  TREATED("somebody had to be treated"),
  SERIOUS("lasting harm, a hospital, or it might have come to that"),
  DEATH("somebody died");

  private final String words;

  Harm(String words) {
    this.words = words;
  }

  /** As scripts spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public String words() {
    return words;
  }

  static Optional<Harm> find(String word) {
    return Arrays.stream(values()).filter(one -> one.word().equals(word)).findFirst();
  }

  @JsonCreator
  static Harm byWord(String word) {
    return find(word)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "Harm is one of none, passing, treated, serious, death."));
  }
}
