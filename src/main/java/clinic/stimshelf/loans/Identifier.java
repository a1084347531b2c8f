package clinic.stimshelf.loans;

import clinic.stimshelf.web.Spelled;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/**
 * How a person is told apart from another of the same name; two are needed before a unit leaves.
 */
public enum Identifier {
  NAME,
  BIRTH_DATE,
  CHART_NUMBER,
  PHOTO_ID,
  ADDRESS;

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /**
   * @throws IllegalArgumentException naming what is allowed
   */
  @JsonCreator
  public static Identifier of(String word) {
    return Spelled.one("An identifier", values(), Identifier::word, word);
  }
}
