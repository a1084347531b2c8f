package clinic.stimshelf.shelf;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/**
 * What a kit holds beside its unit. Essential parts must be there for the kit to leave; the others
 * may be owed.
 */
public enum Part {
  LEAD_SET("lead set", true, "L"),
  CHARGER("charger", true, "C"),
  CELLS("spare cells", true, "E"),
  BAG("bag", false, "B"),
  MANUAL("manual", false, "M"),
  SPARE_LEADS("spare leads", false, "S"),
  STRAPS("straps", false, "T"),
  OTHER("other", false, "X");

  private final String words;
  private final boolean essential;
  private final String mark;

  Part(String words, boolean essential, String mark) {
    this.words = words;
    this.essential = essential;
    this.mark = mark;
  }

  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public String words() {
    return words;
  }

  /** What is proposed for it: whether a kit may not leave without. */
  public boolean essential() {
    return essential;
  }

  /** Letter in the proposed tag of the part. */
  String mark() {
    return mark;
  }

  static Part byWord(String word) {
    for (Part part : values()) {
      if (part.word().equals(word)) {
        return part;
      }
    }
    return null;
  }
}
