package clinic.stimshelf.codes.udi;

/** The check character of HIBC labels (ANSI/HIBC 2.6): the values, summed, modulo 43. */
final class Mod43 {

  private static final String ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%";

  private Mod43() {}

  /** The first character that has no value; empty if all have one. */
  static String strangerIn(String text) {
    return text.codePoints()
        .filter(c -> ALPHABET.indexOf(c) < 0)
        .mapToObj(Character::toString)
        .findFirst()
        .orElse("");
  }

  /** The check character for the text before it, its leading plus sign included. */
  static char of(String body) {
    return ALPHABET.charAt(body.chars().map(ALPHABET::indexOf).sum() % 43);
  }

  /** Whether the last character is the right one for the rest. */
  static boolean closes(String text) {
    int last = text.length() - 1;
    return last > 0
        && strangerIn(text).isEmpty()
        && of(text.substring(0, last)) == text.charAt(last);
  }
}
