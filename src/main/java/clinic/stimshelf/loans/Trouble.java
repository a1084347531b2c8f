package clinic.stimshelf.loans;

import clinic.stimshelf.web.Spelled;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/**
 * What was noticed when a unit came in. The desk counts and tells; whether the unit works, the
 * inspection says.
 */
public enum Trouble {
  FAULT("does not work as it should"),
  DROPPED("was dropped or got wet"),
  LEADS("leads or plugs are damaged"),
  BATTERY("battery does not last"),
  SWOLLEN("battery is swollen, hot or leaking"),
  SKIN("the patient had skin trouble"),
  SOILED("is soiled: body fluid or pests"),
  OTHER("something else");

  private final String words;

  Trouble(String words) {
    this.words = words;
  }

  /** As scripts spell it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** As people read it. */
  public String words() {
    return words;
  }

  /**
   * @throws IllegalArgumentException naming what is allowed
   */
  @JsonCreator
  public static Trouble of(String word) {
    return Spelled.one("Trouble", values(), Trouble::word, word);
  }
}
