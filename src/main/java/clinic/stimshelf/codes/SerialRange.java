package clinic.stimshelf.codes;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Serial numbers from one to another, both included, in the order in which a person would count
 * them: runs of digits by their value, so that SN-9 stands before SN-10 and SN-009 beside SN-9;
 * everything else by its letters, whatever their case.
 *
 * <p>What stands between by that order is in the range even where it is written otherwise (SN-12B
 * lies between SN-12 and SN-13): for a recall a unit too many is looked at, one too few is worn.
 */
public record SerialRange(String from, String to) {
  private static final Pattern RUN = Pattern.compile("\\d+|\\D+");

  /**
   * @throws IllegalArgumentException if an end is blank, or the first stands after the last
   */
  public SerialRange {
    from = from == null ? "" : from.strip();
    to = to == null ? "" : to.strip();
    if (from.isEmpty() || to.isEmpty()) {
      throw new IllegalArgumentException("A range of serial numbers needs a first and a last one.");
    }
    if (compare(from, to) > 0) {
      throw new IllegalArgumentException(
          "The first serial number, %s, stands after the last, %s.".formatted(from, to));
    }
  }

  /** Whether the serial number lies in the range. */
  public boolean contains(String serial) {
    String text = serial.strip();
    return compare(from, text) <= 0 && compare(text, to) <= 0;
  }

  /** Below zero if {@code one} stands before {@code two}, zero if they are the same number. */
  static int compare(String one, String two) {
    Matcher left = RUN.matcher(one.toUpperCase(Locale.ROOT));
    Matcher right = RUN.matcher(two.toUpperCase(Locale.ROOT));
    while (true) {
      boolean more = left.find();
      boolean moreRight = right.find();
      if (!more || !moreRight) {
        return Boolean.compare(more, moreRight);
      }
      int order = compareRuns(left.group(), right.group());
      if (order != 0) {
        return order;
      }
    }
  }

  private static int compareRuns(String one, String two) {
    if (!isDigits(one) || !isDigits(two)) {
      return one.compareTo(two);
    }
    String left = withoutZeros(one);
    String right = withoutZeros(two);
    return left.length() != right.length()
        ? Integer.compare(left.length(), right.length())
        : left.compareTo(right);
  }

  private static boolean isDigits(String run) {
    return run.charAt(0) >= '0' && run.charAt(0) <= '9';
  }

  private static String withoutZeros(String digits) {
    int first = 0;
    while (first < digits.length() - 1 && digits.charAt(first) == '0') {
      first++;
    }
    return digits.substring(first);
  }
}
