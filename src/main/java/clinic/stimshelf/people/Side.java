package clinic.stimshelf.people;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** The side of the body that is treated. */
public enum Side {
  LEFT,
  RIGHT,
  BOTH;

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The side in the person's language: Spanish for {@code es}, else English. */
  public String words(String language) {
    if (!"es".equals(language)) {
      return this == BOTH ? "both sides" : word();
    }
    return switch (this) {
      case LEFT -> "izquierda";
      case RIGHT -> "derecha";
      case BOTH -> "ambos lados";
    };
  }

  /** The sides of which each one must have been screened. */
  List<Side> single() {
    return this == BOTH ? List.of(LEFT, RIGHT) : List.of(this);
  }

  boolean covers(Side single) {
    return this == BOTH || this == single;
  }

  /**
   * @throws IllegalArgumentException naming the sides there are
   */
  @JsonCreator
  public static Side of(String word) {
    String wanted = word == null ? "" : word.strip().toLowerCase(Locale.ROOT);
    return Arrays.stream(values())
        .filter(side -> side.word().equals(wanted))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "“" + wanted + "” is no side. Possible: left, right, both."));
  }
}
