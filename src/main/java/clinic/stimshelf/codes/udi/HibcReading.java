package clinic.stimshelf.codes.udi;

import java.time.LocalDate;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Reads HIBC labels (ANSI/HIBC 2.6) into a draft. */
final class HibcReading {

  private static final Pattern PRIMARY =
      Pattern.compile("([A-Z][A-Z0-9]{3})([A-Z0-9]{1,18})([0-9])");
  private static final Pattern FIVE_DIGITS = Pattern.compile("\\d{5}.*");
  private static final Pattern LONG_DATE = Pattern.compile("(14D|16D)(\\d{8})");
  private static final int LONGEST = 18;

  private final Draft draft;

  HibcReading(Draft draft) {
    this.draft = draft;
    draft.issuer = Issuer.HIBCC;
  }

  /** A whole label, or one of the two symbols of a split one. */
  void read(String scan) {
    String content = contentOf(scan);
    if (content.isEmpty()) {
      return;
    }
    if (isSecondary(content)) {
      secondary(content.substring(0, content.length() - 1));
      return;
    }
    int slash = content.indexOf('/');
    primary(slash < 0 ? content : content.substring(0, slash));
    if (slash >= 0) {
      further(content.substring(slash + 1));
    }
  }

  /** The two symbols of a split label; the second names the first one's check character. */
  void readPair(String first, String second) {
    String primary = contentOf(first);
    String secondary = contentOf(second);
    if (primary.isEmpty() || secondary.isEmpty()) {
      return;
    }
    if (isSecondary(primary) || !isSecondary(secondary)) {
      draft.refuse(
          "These two symbols are not the two halves of one label: scan the product's symbol first.");
      return;
    }
    primary(primary);
    char link = secondary.charAt(secondary.length() - 1);
    if (link != Mod43.of("+" + primary)) {
      draft.refuse(
          "The second symbol belongs to another product's label: scan the two of one pack.");
    }
    secondary(secondary.substring(0, secondary.length() - 1));
  }

  /** The text between plus sign and check character; empty if it cannot be one. */
  private String contentOf(String scan) {
    String text = scan.toUpperCase(Locale.ROOT);
    if (text.length() > 3 && text.startsWith("*+") && text.endsWith("*")) {
      // The spelling for people: asterisks around it, a blank check character as an underscore.
      text = text.substring(1, text.length() - 1);
      text = text.endsWith("_") ? text.substring(0, text.length() - 1) + " " : text;
    }
    String stranger = Mod43.strangerIn(text);
    if (!stranger.isEmpty()) {
      draft.refuse("'%s' cannot stand on a HIBC label: scan again.", stranger);
      return "";
    }
    text = withItsCheckCharacter(text);
    if (text.length() < 3 || text.charAt(0) != '+') {
      draft.refuse("There is nothing in this label: scan it again.");
      return "";
    }
    return text.substring(1, text.length() - 1);
  }

  /** Blanks at the end are the scanner's, or the check character itself: whichever fits. */
  private String withItsCheckCharacter(String text) {
    String shorter = text;
    while (!Mod43.closes(shorter) && shorter.endsWith(" ")) {
      shorter = shorter.substring(0, shorter.length() - 1);
    }
    if (Mod43.closes(shorter)) {
      return shorter;
    }
    if (Mod43.of(shorter) == ' ') {
      draft.warn(
          "The label's last character, a blank, did not arrive: compare the values with the label.");
      return shorter + " ";
    }
    if (shorter.length() > 1) {
      draft.refuse(
          "The label is misread: its last character should be '%s'. Scan again, or type what the label prints.",
          String.valueOf(Mod43.of(shorter.substring(0, shorter.length() - 1))));
    }
    return shorter;
  }

  private static boolean isSecondary(String content) {
    return content.startsWith("$") || FIVE_DIGITS.matcher(content).matches();
  }

  private void primary(String content) {
    Matcher m = PRIMARY.matcher(content);
    if (m.matches()) {
      draft.elements.put("LIC", m.group(1));
      draft.elements.put("PCN", m.group(2));
      draft.elements.put("UOM", m.group(3));
      draft.deviceIdentifier = content;
    } else if (content.isEmpty() || content.charAt(0) < 'A' || content.charAt(0) > 'Z') {
      draft.refuse("The labeler's code in '%s' must begin with a letter: scan again.", content);
    } else {
      draft.refuse(
          "'%s' is no product: it must be 4 characters for the labeler, 1 to 18 for the product and a digit.",
          content);
    }
  }

  private void further(String parts) {
    boolean first = true;
    for (String part : parts.split("/", -1)) {
      Matcher longDate = LONG_DATE.matcher(part);
      if (longDate.matches()) {
        LocalDate date = LabelDates.yyyymmdd(longDate.group(2));
        if (longDate.group(1).equals("14D")) {
          draft.expiresOn = draft.date("expiry date", longDate.group(2), date);
        } else {
          draft.madeOn = draft.date("production date", longDate.group(2), date);
        }
      } else if (first && isSecondary(part)) {
        secondary(part);
      } else if (part.startsWith("S")) {
        serial(part.substring(1));
      } else {
        draft.warn("The part '%s' of the label was not understood and is left out.", part);
      }
      first = false;
    }
  }

  private void secondary(String text) {
    if (text.startsWith("$$+")) {
      dated(text.substring(3), true);
    } else if (text.startsWith("$$")) {
      dated(text.substring(2), false);
    } else if (text.startsWith("$+")) {
      serial(text.substring(2));
    } else if (text.startsWith("$")) {
      lot(text.substring(1));
    } else {
      // The oldest form: YYJJJ and the lot.
      expiry(text, 0, 5);
      lot(text.length() > 5 ? text.substring(5) : "");
    }
  }

  /** Quantity and date forms after {@code $$}, then lot or serial number. */
  private void dated(String text, boolean serial) {
    String rest = text;
    if (rest.startsWith("8") || rest.startsWith("9")) {
      int length = rest.startsWith("8") ? 2 : 5;
      String digits = rest.substring(1, Math.min(rest.length(), 1 + length));
      if (LabelDates.isDigits(digits, length)) {
        draft.count = Integer.valueOf(digits);
      } else {
        draft.refuse("The quantity '%s' must be %d digits: scan again.", digits, length);
        return;
      }
      rest = rest.substring(1 + length);
    }
    if (!rest.isEmpty()) {
      int used =
          switch (rest.charAt(0)) {
            case '0', '1' -> expiry(rest, 0, 4);
            case '2', '3' -> expiry(rest, 1, 6);
            case '4' -> expiry(rest, 1, 8);
            case '5' -> expiry(rest, 1, 5);
            case '6' -> expiry(rest, 1, 7);
            case '7' -> 1;
            default -> -1;
          };
      if (used < 0) {
        draft.refuse("'%s' does not begin with a date as HIBC writes it: scan again.", rest);
        return;
      }
      rest = rest.substring(used);
    }
    if (serial) {
      serial(rest);
    } else {
      lot(rest);
    }
  }

  /** Reads the expiry date whose form the flag before it (or its length alone) names. */
  private int expiry(String text, int from, int length) {
    int end = Math.min(text.length(), from + length);
    String digits = text.substring(from, end);
    int year = draft.currentYear;
    LocalDate date = null;
    if (digits.length() == length) {
      date =
          switch (length) {
            case 4 -> LabelDates.mmyy(digits, year);
            case 5 -> LabelDates.yyjjj(digits, year);
            case 6 ->
                text.charAt(0) == '2'
                    ? LabelDates.mmddyy(digits, year)
                    : LabelDates.yymmdd(digits, year);
            case 7 -> withHour(LabelDates.yyjjj(digits.substring(0, 5), year), digits.substring(5));
            default ->
                withHour(LabelDates.yymmdd(digits.substring(0, 6), year), digits.substring(6));
          };
    }
    draft.expiresOn = draft.date("expiry date", digits, date);
    return end;
  }

  private @Nullable LocalDate withHour(@Nullable LocalDate date, String hour) {
    if (date == null || !LabelDates.isDigits(hour, 2) || Integer.parseInt(hour) > 23) {
      return null;
    }
    draft.expiresAtHour = Integer.valueOf(hour);
    return date;
  }

  private void lot(String lot) {
    if (isShort("lot", lot)) {
      draft.lot = lot;
    }
  }

  private void serial(String serial) {
    if (isShort("serial number", serial)) {
      draft.serial = serial;
    }
  }

  private boolean isShort(String what, String text) {
    if (text.length() > LONGEST) {
      draft.refuse(
          "The %s '%s' has %d characters; at most %d are allowed: scan again.",
          what, text, text.length(), LONGEST);
      return false;
    }
    return !text.isEmpty();
  }
}
