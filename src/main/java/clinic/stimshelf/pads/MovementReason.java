package clinic.stimshelf.pads;

import clinic.stimshelf.web.Malformed;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** Why packs came or went. */
public enum MovementReason {
  OPENING("opening stock"),
  DELIVERY("delivered"),
  GIVEN("given to a patient"),
  /** A sealed pack that was at a home; only where the location allows it. */
  RETURNED_SEALED("came back sealed"),
  APPOINTMENT("used in an appointment"),
  DRAWER_TAKE("taken from the drawer"),
  EXPIRED("thrown away, expired"),
  DISCARDED("thrown away"),
  COUNT_DIFFERENCE("difference found by counting"),
  TRANSFER("moved between locations"),
  REVERSAL("mistake reversed");

  private final String words;

  MovementReason(String words) {
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
  public static MovementReason of(String word) {
    return Arrays.stream(values())
        .filter(value -> value.word().equals(word))
        .findFirst()
        .orElseThrow(
            () ->
                new Malformed(
                    "reason",
                    "“"
                        + word
                        + "” is none of "
                        + Arrays.stream(values())
                            .map(MovementReason::word)
                            .collect(Collectors.joining(", "))
                        + "."));
  }
}
