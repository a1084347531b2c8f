package clinic.stimshelf.pads;

import clinic.stimshelf.web.Malformed;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** How a pad is cut. */
public enum PadShape {
  RECTANGLE("rectangle"),
  ROUND("round"),
  OVAL("oval"),
  /** Batteries, wipes, straps, sponge inserts: stocked and ordered like pads, but nothing wears. */
  SUPPLY("no pad: battery, wipe, strap, insert");

  private final String words;

  PadShape(String words) {
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
  public static PadShape of(String word) {
    return Arrays.stream(values())
        .filter(value -> value.word().equals(word))
        .findFirst()
        .orElseThrow(
            () ->
                new Malformed(
                    "shape",
                    "“"
                        + word
                        + "” is none of "
                        + Arrays.stream(values())
                            .map(PadShape::word)
                            .collect(Collectors.joining(", "))
                        + "."));
  }
}
