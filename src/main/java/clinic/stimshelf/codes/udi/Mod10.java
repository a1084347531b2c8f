package clinic.stimshelf.codes.udi;

/**
 * The check digit of GS1 keys (GS1 General Specifications §7.9): weights 3, 1, 3 … from the right.
 */
final class Mod10 {

  private Mod10() {}

  /** The check digit for the digits before it. */
  static int of(String body) {
    int sum = 0;
    for (int i = 0; i < body.length(); i++) {
      int digit = body.charAt(body.length() - 1 - i) - '0';
      sum += i % 2 == 0 ? 3 * digit : digit;
    }
    return (10 - sum % 10) % 10;
  }

  /** Whether the last of these digits is the right one for the rest. */
  static boolean closes(String digits) {
    int last = digits.length() - 1;
    return last > 0
        && digits.chars().allMatch(c -> c >= '0' && c <= '9')
        && of(digits.substring(0, last)) == digits.charAt(last) - '0';
  }
}
