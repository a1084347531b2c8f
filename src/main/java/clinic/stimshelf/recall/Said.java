package clinic.stimshelf.recall;

import clinic.stimshelf.web.Refusals;

/** Texts as people type them. */
final class Said {
  private Said() {}

  static boolean anything(String text) {
    return text != null && !text.isBlank();
  }

  /**
   * The text without blanks around it, {@code null} if none; what is wrong goes to the refusals.
   */
  static String text(
      String field, String what, String text, int most, boolean needed, Refusals refusals) {
    if (!anything(text)) {
      if (needed) {
        refusals.add(field, what + " is missing.");
      }
      return null;
    }
    String stripped = text.strip();
    if (stripped.codePointCount(0, stripped.length()) > most) {
      refusals.add(field, what + " is too long: at most " + most + " characters.");
    }
    return stripped;
  }
}
