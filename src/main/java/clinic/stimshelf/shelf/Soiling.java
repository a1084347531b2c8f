package clinic.stimshelf.shelf;

import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Spelled;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Collection;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;

/** What a unit came back with beyond ordinary use. */
public enum Soiling {
  BODY_FLUID("blood or another body fluid on it", Setting.BODY_FLUID_HOLD_DAYS),
  PESTS("insects or other pests seen", Setting.PESTS_HOLD_DAYS),
  CONTACT_PRECAUTIONS("used under contact precautions", Setting.CONTACT_PRECAUTIONS_HOLD_DAYS);

  private final String words;
  private final Setting holdDays;

  Soiling(String words, Setting holdDays) {
    this.words = words;
    this.holdDays = holdDays;
  }

  /** As scripts spell it: {@code body-fluid}. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** As people read it. */
  public String words() {
    return words;
  }

  /** For how many days a location holds such a kit. */
  Setting holdDays() {
    return holdDays;
  }

  /**
   * @throws IllegalArgumentException naming what is allowed
   */
  @JsonCreator
  public static Soiling of(String word) {
    return Spelled.one("What is on the unit", values(), Soiling::word, word);
  }

  /** As one column holds them; {@code null} for none. */
  static String joined(Collection<Soiling> all) {
    return all.isEmpty()
        ? null
        : all.stream().sorted().map(Soiling::word).collect(Collectors.joining(","));
  }

  static Set<Soiling> parsed(String column) {
    Set<Soiling> all = EnumSet.noneOf(Soiling.class);
    if (column != null) {
      Arrays.stream(column.split(",")).map(Soiling::of).forEach(all::add);
    }
    return all;
  }
}
