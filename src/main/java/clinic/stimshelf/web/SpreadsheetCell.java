package clinic.stimshelf.web;

import java.util.regex.Pattern;

/**
 * Keeps a spreadsheet from running a cell as a formula: what begins with a character that starts a
 * formula gets an apostrophe before it, which is taken off again when the file is read.
 *
 * <p>The characters are those that OWASP names for "CSV injection": = + - @, tab, carriage return
 * and line feed, and the full-width forms of the first four.
 */
public final class SpreadsheetCell {
  private static final Pattern STARTS_A_FORMULA =
      Pattern.compile("'*[=+\\-@\\t\\r\\n＝＋－＠].*", Pattern.DOTALL);

  private SpreadsheetCell() {}

  public static String guarded(String text) {
    return STARTS_A_FORMULA.matcher(text).matches() ? "'" + text : text;
  }

  public static String unguarded(String cell) {
    return cell.startsWith("'") && STARTS_A_FORMULA.matcher(cell).matches()
        ? cell.substring(1)
        : cell;
  }
}
