package clinic.stimshelf.desk;

import clinic.stimshelf.remind.ReminderBook;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** What became of an attempt to reach somebody. */
public enum ContactOutcome {
  REACHED("reached"),
  FAMILY("spoke with family"),
  VOICEMAIL("left a voicemail"),
  NO_ANSWER("no answer"),
  WRONG_NUMBER("wrong number");

  private final String words;

  ContactOutcome(String words) {
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

  /** Family may take a message, but what is asked is asked of the patient. */
  ReminderBook.Reached reached() {
    return switch (this) {
      case REACHED -> ReminderBook.Reached.YES;
      case FAMILY, VOICEMAIL, NO_ANSWER -> ReminderBook.Reached.NOT_YET;
      case WRONG_NUMBER -> ReminderBook.Reached.WRONG_NUMBER;
    };
  }

  static Optional<ContactOutcome> find(String word) {
    return Arrays.stream(values()).filter(one -> one.word().equals(word)).findFirst();
  }

  @JsonCreator
  static ContactOutcome byWord(String word) {
    return find(word)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "An outcome is one of "
                        + Arrays.stream(values())
                            .map(ContactOutcome::word)
                            .collect(Collectors.joining(", "))
                        + "."));
  }
}
