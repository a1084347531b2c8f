package clinic.stimshelf.people;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** What a yes to a screening question does. */
public enum Effect {
  /** Notes something; stands against nothing. */
  INFORMATION,
  /** A licensed PT accepts it with a reason. */
  PRECAUTION,
  /** Nothing is done until somebody named has cleared it. */
  HOLD,
  /** Nothing is done. */
  CONTRAINDICATION;

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  @JsonCreator
  static Effect of(String word) {
    for (Effect effect : values()) {
      if (effect.word().equals(word)) {
        return effect;
      }
    }
    throw new IllegalArgumentException(
        "“" + word + "” is no effect. Possible: information, precaution, hold, contraindication.");
  }

  static Effect stronger(Effect one, Effect other) {
    return one.compareTo(other) >= 0 ? one : other;
  }
}
