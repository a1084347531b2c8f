package clinic.stimshelf.codes;

/**
 * The check character of ISO/IEC 7064, MOD 37,36: one character over digits and capital letters
 * that catches every single wrong character and nearly every swap of neighbours.
 *
 * <p>With M = 36 and P = 36 at the start, each character value a makes S = P + a mod M (M where
 * that is 0) and P = 2S mod (M + 1); the check value c makes P + c = 1 mod M.
 */
final class CheckCharacter {

  private static final String ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
  private static final int M = 36;

  private CheckCharacter() {}

  /**
   * The character that completes {@code body}.
   *
   * @throws IllegalArgumentException if {@code body} holds anything but 0-9 and A-Z
   */
  static char of(String body) {
    int p = M;
    for (int i = 0; i < body.length(); i++) {
      int a = ALPHABET.indexOf(body.charAt(i));
      if (a < 0) {
        throw new IllegalArgumentException(
            "A check character is defined over 0-9 and A-Z, not over '%s'.".formatted(body));
      }
      int s = (p + a) % M;
      p = 2 * (s == 0 ? M : s) % (M + 1);
    }
    return ALPHABET.charAt((M + 1 - p) % M);
  }

  /** Whether the last character of {@code whole} is the right one for the rest. */
  static boolean closes(String whole) {
    int last = whole.length() - 1;
    return last > 0 && of(whole.substring(0, last)) == whole.charAt(last);
  }
}
