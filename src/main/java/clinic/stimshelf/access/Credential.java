package clinic.stimshelf.access;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** What a staff member is licensed or trained as; it decides what they may sign. */
public enum Credential {
  PT("physical therapist", true),
  PTA("physical therapist assistant", true),
  STUDENT_PT("student physical therapist", false),
  ATHLETIC_TRAINER("athletic trainer", true),
  AIDE("aide", false),
  NONE("no credential", false);

  private final String label;
  private final boolean licensed;

  Credential(String label, boolean licensed) {
    this.label = label;
    this.licensed = licensed;
  }

  /** As scripts and files spell it: {@code student-pt}. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** As pages say it. */
  public String label() {
    return label;
  }

  /** Whether a license with an end stands behind it. */
  public boolean licensed() {
    return licensed;
  }

  /**
   * Reads a word as {@link #word()} writes it, in any case.
   *
   * @throws IllegalArgumentException if there is none such; the message names those that are
   */
  @JsonCreator
  public static Credential of(String word) {
    String wanted = word.strip().toLowerCase(Locale.ROOT).replace('_', '-').replace(' ', '-');
    return Arrays.stream(values())
        .filter(credential -> credential.word().equals(wanted))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "“"
                        + word
                        + "” is no credential. Possible: "
                        + String.join(", ", words())
                        + "."));
  }

  /** All words, as a choice is offered. */
  public static List<String> words() {
    return Arrays.stream(values()).map(Credential::word).collect(Collectors.toList());
  }
}
