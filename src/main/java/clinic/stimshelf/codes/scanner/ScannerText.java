package clinic.stimshelf.codes.scanner;

/**
 * The one place that takes off what a keyboard-wedge scanner (or a person's paste) puts around a
 * symbol's text: Enter, line feed, tab, start and end marks, a byte order mark, blanks.
 *
 * <p>{@link String#strip()} and {@link String#trim()} must not be used on a scan: both also remove
 * the separator 0x1D, which carries meaning at either end.
 */
public final class ScannerText {

  /** The group separator: what FNC1 inside a GS1 symbol arrives as. */
  public static final char SEPARATOR = '\u001D';

  private ScannerText() {}

  /**
   * Takes off the frame but keeps blanks at the end, because the check character of a HIBC label
   * may be a blank.
   */
  public static String withoutFrame(String raw) {
    int start = 0;
    int end = raw.length();
    while (start < end && (isFrame(raw.charAt(start)) || isBlank(raw.charAt(start)))) {
      start++;
    }
    while (end > start && isFrame(raw.charAt(end - 1))) {
      end--;
    }
    return raw.substring(start, end);
  }

  /** Takes off the frame and the blanks at both ends. */
  public static String plain(String raw) {
    String text = withoutFrame(raw);
    int end = text.length();
    while (end > 0 && (isFrame(text.charAt(end - 1)) || isBlank(text.charAt(end - 1)))) {
      end--;
    }
    return text.substring(0, end);
  }

  private static boolean isFrame(char c) {
    return (c < ' ' && c != SEPARATOR) || c == '\u007F' || c == '\uFEFF';
  }

  private static boolean isBlank(char c) {
    return c == ' ' || c == '\u00A0';
  }
}
