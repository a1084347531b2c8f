package clinic.stimshelf.outcomes;

import clinic.stimshelf.web.Spelled;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** What can be measured, with its unit. */
public enum Measure {
  PEAK_FORCE("Peak force", "N", Kind.SYMMETRY, false),
  PEAK_TORQUE("Peak torque", "Nm", Kind.SYMMETRY, false),
  HOP_DISTANCE("Hop distance", "cm", Kind.SYMMETRY, false),
  HOP_TIME("Timed hop", "s", Kind.SYMMETRY, true),
  REPETITIONS("Repetitions", "times", Kind.SYMMETRY, false),
  GIRTH("Limb girth", "cm", Kind.GIRTH, false),
  SHARE_OF_VOLUNTARY("Force while stimulated", "% of voluntary", Kind.LEVEL, false),
  CURRENT("Intensity reached", "mA", Kind.LEVEL, false),
  UNIT_LEVEL("Level of the unit reached", "level", Kind.LEVEL, false);

  /** How both sides are put beside one another. */
  enum Kind {
    SYMMETRY,
    GIRTH,
    LEVEL
  }

  private final String words;
  private final String unit;
  private final Kind kind;
  private final boolean lessIsBetter;

  Measure(String words, String unit, Kind kind, boolean lessIsBetter) {
    this.words = words;
    this.unit = unit;
    this.kind = kind;
    this.lessIsBetter = lessIsBetter;
  }

  /** As scripts and files spell it: {@code peak-torque}. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public String words() {
    return words;
  }

  public String unit() {
    return unit;
  }

  Kind kind() {
    return kind;
  }

  boolean lessIsBetter() {
    return lessIsBetter;
  }

  boolean bothSides() {
    return kind != Kind.LEVEL;
  }

  /**
   * @throws IllegalArgumentException naming the measures there are
   */
  @JsonCreator
  public static Measure of(String word) {
    return Spelled.one("A measure", values(), Measure::word, word);
  }
}
