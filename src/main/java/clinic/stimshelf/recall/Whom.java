package clinic.stimshelf.recall;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** Whom a clinic thinks of telling about an incident. */
public enum Whom {
  PATIENT("the patient or family"),
  PRESCRIBER("the prescriber"),
  MANAGER("the manager"),
  MAKER("the maker"),
  REGULATOR("the regulator");

  private final String words;

  Whom(String words) {
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

  static Optional<Whom> find(String word) {
    return Arrays.stream(values()).filter(one -> one.word().equals(word)).findFirst();
  }

  @JsonCreator
  static Whom byWord(String word) {
    return find(word)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "Told is one of patient, prescriber, manager, maker, regulator."));
  }
}
