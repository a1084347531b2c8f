package clinic.stimshelf.link;

import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What a patient can say is not right, in the three grades of skin and leg of the page, and pads.
 * Where the lines are drawn is common practice, no source; the words stand in
 * config/home-words.yaml.
 */
public enum ReportKind {
  /** Pink that fades within an hour: expected, nobody has to answer. */
  FINE("Pink skin that fades", false),
  STOP("Skin stays red, stings or is patchy", true),
  CALL("Blister, open skin, burn, or calf pain or swelling", true),
  PADS("Pads will not stick", true);

  private final String words;
  private final boolean answer;

  ReportKind(String words, boolean answer) {
    this.words = words;
    this.answer = answer;
  }

  public String words() {
    return words;
  }

  /** Whether somebody has to answer. */
  boolean wantsAnswer() {
    return answer;
  }

  /** Whether the patient was told to stop. */
  public boolean stops() {
    return this == STOP || this == CALL;
  }

  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  static Optional<ReportKind> find(String word) {
    return Stream.of(values()).filter(one -> one.word().equals(word)).findFirst();
  }
}
