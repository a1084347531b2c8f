package clinic.stimshelf.pads;

import clinic.stimshelf.web.Malformed;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** Where an order stands. */
public enum OrderState {
  OPEN("open"),
  DELIVERED("delivered"),
  CANCELLED("cancelled");

  private final String words;

  OrderState(String words) {
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
  public static OrderState of(String word) {
    return Arrays.stream(values())
        .filter(value -> value.word().equals(word))
        .findFirst()
        .orElseThrow(
            () ->
                new Malformed(
                    "state",
                    "“"
                        + word
                        + "” is none of "
                        + Arrays.stream(values())
                            .map(OrderState::word)
                            .collect(Collectors.joining(", "))
                        + "."));
  }
}
