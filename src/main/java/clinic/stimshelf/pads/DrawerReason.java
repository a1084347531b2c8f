package clinic.stimshelf.pads;

import clinic.stimshelf.web.Malformed;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** What pads outside of programs are taken for. */
public enum DrawerReason {
  TRIAL("trial before a program"),
  TREATMENT("treatment in the clinic"),
  WONT_STICK("pads did not stick"),
  DAMAGED("dropped or soiled"),
  TEACHING("teaching or showing"),
  OTHER("other, see note");

  private final String words;

  DrawerReason(String words) {
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
  public static DrawerReason of(String word) {
    return Arrays.stream(values())
        .filter(value -> value.word().equals(word))
        .findFirst()
        .orElseThrow(
            () ->
                new Malformed(
                    "drawerReason",
                    "“"
                        + word
                        + "” is none of "
                        + Arrays.stream(values())
                            .map(DrawerReason::word)
                            .collect(Collectors.joining(", "))
                        + "."));
  }
}
