package clinic.stimshelf.codes.udi;

import clinic.stimshelf.codes.scanner.ScannerText;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Reads GS1 labels in each of their spellings into a draft. */
final class Gs1Reading {

  private static final Pattern BRACKETED = Pattern.compile("\\((\\d{2,4})\\)");
  private static final Pattern LINKED_PRODUCT =
      Pattern.compile("/(?:01|gtin)/(\\d{14}|\\d{13}|\\d{12}|\\d{8})(?=[/?#]|$)");
  private static final Pattern LOST_SERIAL = Pattern.compile(".+?21.{2,}");
  private static final Pattern LOST_DATE = Pattern.compile(".+(1[17])(\\d{6})");

  private final Draft draft;

  Gs1Reading(Draft draft) {
    this.draft = draft;
    draft.issuer = Issuer.GS1;
  }

  /** Element strings as a symbol holds them, separators restored to 0x1D. */
  void elementString(String data) {
    char separator = ScannerText.SEPARATOR;
    String text = data;
    if (!text.isEmpty() && text.charAt(0) == separator) {
      text = text.substring(1);
    }
    if (!text.isEmpty() && text.charAt(text.length() - 1) == separator) {
      text = text.substring(0, text.length() - 1);
    }
    if (text.isEmpty()) {
      draft.refuse("There is nothing in this label: scan it again.");
      return;
    }
    int at = 0;
    while (at < text.length()) {
      Gs1Field field = Gs1Field.at(text, at);
      if (field == null) {
        draft.refuse(
            "The part that begins '%s' has no meaning on a device's label: scan again, or type the values that the label prints.",
            text.substring(at, Math.min(text.length(), at + 8)));
        return;
      }
      int start = at + field.ai().length();
      int stop = text.indexOf(separator, start);
      int end = stop < 0 ? text.length() : stop;
      if (field.fixed()) {
        end = Math.min(end, start + field.length());
      }
      accept(field, text.substring(start, end));
      at = end;
      if (at < text.length() && text.charAt(at) == separator) {
        at++;
        if (at == text.length() || text.charAt(at) == separator) {
          draft.refuse("Two separators follow each other, so a part is missing: scan again.");
          return;
        }
      }
    }
  }

  /** The spelling for people, identifiers in brackets: {@code (01)09506000117843(10)LOT9}. */
  void bracketed(String text) {
    Matcher m = BRACKETED.matcher(text);
    Gs1Field open = null;
    int from = 0;
    while (m.find()) {
      Gs1Field field = Gs1Field.of(m.group(1));
      if (field == null) {
        continue;
      }
      if (open != null) {
        accept(open, ScannerText.plain(text.substring(from, m.start())));
      } else if (m.start() > 0) {
        draft.refuse(
            "'%s' stands before the first part of the label.", text.substring(0, m.start()));
      }
      open = field;
      from = m.end();
    }
    if (open == null) {
      draft.refuse(
          "'%s' holds no part of a device's label, such as (01) and the product number.", text);
    } else {
      accept(open, ScannerText.plain(text.substring(from)));
    }
  }

  /** A product number on its own: 8, 12, 13 or 14 digits. */
  void product(String digits) {
    accept(Gs1Field.at("01", 0), "0".repeat(Math.max(0, 14 - digits.length())) + digits);
  }

  /** A web address that spells the parts as its path and query (GS1 Digital Link). */
  void link(String address) {
    Matcher m = LINKED_PRODUCT.matcher(address);
    int end = -1;
    String digits = "";
    while (m.find()) {
      digits = m.group(1);
      end = m.end();
    }
    if (end < 0) {
      draft.refuse("The web address '%s' is not a device's label.", address);
      return;
    }
    product(digits);
    String rest = address.substring(end);
    int hash = rest.indexOf('#');
    String[] halves = (hash < 0 ? rest : rest.substring(0, hash)).split("\\?", 2);
    String[] path = halves[0].split("/");
    for (int i = 1; i + 1 < path.length; i += 2) {
      linked(path[i], path[i + 1]);
    }
    if (halves.length > 1) {
      for (String pair : halves[1].split("[&;]")) {
        String[] parts = pair.split("=", 2);
        if (parts.length == 2) {
          linked(parts[0], parts[1]);
        }
      }
    }
  }

  /** Closes the reading: what needs what, and what looks as if a separator had been lost. */
  void close() {
    if (draft.elements.containsKey("01")) {
      forbid("01", "37");
      forbid("21", "235");
      warnOfLostSeparator();
      return;
    }
    String orphan =
        draft.elements.keySet().stream()
            .map(Gs1Field::of)
            .filter(field -> field != null && field.needsProduct())
            .map(Gs1Field::name)
            .findFirst()
            .orElse(null);
    if (orphan != null && !draft.isContradicted()) {
      draft.refuse(
          "The label gives a %s but no product number (GTIN): scan the symbol that holds it too, or add the GTIN.",
          orphan);
    }
  }

  private void forbid(String ai, String other) {
    if (draft.elements.containsKey(ai) && draft.elements.containsKey(other)) {
      draft.refuse(
          "(%s) and (%s) may not stand on one label: scan only the label of the device.",
          ai, other);
    }
  }

  private void linked(String key, String value) {
    String ai =
        switch (key) {
          case "lot" -> "10";
          case "ser" -> "21";
          case "cpv" -> "22";
          case "exp" -> "17";
          default -> key;
        };
    Gs1Field field = Gs1Field.of(ai);
    if (field != null) {
      accept(field, unescape(value));
    }
  }

  private void accept(@Nullable Gs1Field field, String value) {
    if (field == null || !isWellFormed(field, value)) {
      return;
    }
    String before = draft.elements.putIfAbsent(field.ai(), value);
    if (before != null) {
      if (!before.equals(value)) {
        draft.refuse(
            "The label gives two values for its %s, %s and %s: scan one label at a time.",
            field.name(), before, value);
      }
      return;
    }
    switch (field.ai()) {
      case "01" -> product14(value);
      case "10" -> draft.lot = value;
      case "11" -> draft.madeOn = date(field, value);
      case "17" -> draft.expiresOn = date(field, value);
      case "21" -> draft.serial = value;
      case "30" -> draft.count = Integer.valueOf(value);
      default -> {
        if (field.isDate()) {
          date(field, value);
        }
      }
    }
  }

  private boolean isWellFormed(Gs1Field field, String value) {
    if (value.isEmpty()) {
      draft.refuse("The %s (%s) is empty: scan again.", field.name(), field.ai());
      return false;
    }
    String stranger =
        value
            .codePoints()
            .filter(c -> !field.isAllowed(c))
            .mapToObj(Character::toString)
            .findFirst()
            .orElse(null);
    if (stranger != null) {
      draft.refuse(
          "The %s '%s' holds '%s'; %s are allowed: scan again, or type what the label prints.",
          field.name(),
          value,
          stranger,
          field.digitsOnly() ? "only digits" : "letters, digits and some signs, but no blank,");
      return false;
    }
    if (field.fixed() ? value.length() != field.length() : value.length() > field.length()) {
      draft.refuse(
          "The %s '%s' has %d characters; %s %d are allowed: scan again.",
          field.name(),
          value,
          value.length(),
          field.fixed() ? "exactly" : "at most",
          field.length());
      return false;
    }
    return true;
  }

  private void product14(String gtin) {
    if (Mod10.closes(gtin)) {
      draft.deviceIdentifier = gtin;
    } else {
      draft.refuse(
          "The product number %s is misread: its check digit should be %d. Scan again, or type it from the label.",
          gtin, Mod10.of(gtin.substring(0, 13)));
    }
  }

  private @Nullable LocalDate date(Gs1Field field, String digits) {
    return draft.date(field.name(), digits, LabelDates.yymmdd(digits, draft.currentYear));
  }

  private void warnOfLostSeparator() {
    String lot = draft.lot;
    String serial = draft.serial;
    if (lot != null && serial == null && LOST_SERIAL.matcher(lot).matches()) {
      draft.warn(
          "The lot %s may hold a serial number too (21 and what follows), because the scanner lost the separator: compare it with the label.",
          lot);
    }
    for (String tail : new String[] {lot == null ? "" : lot, serial == null ? "" : serial}) {
      Matcher m = LOST_DATE.matcher(tail);
      if (m.matches()
          && !draft.elements.containsKey(m.group(1))
          && LabelDates.yymmdd(m.group(2), draft.currentYear) != null) {
        draft.warn(
            "'%s' may end with a date (%s and %s), because the scanner lost the separator: compare it with the label.",
            tail, m.group(1), m.group(2));
      }
    }
  }

  /** Percent-escapes resolved as UTF-8; what is no escape stays as it is. */
  private static String unescape(String text) {
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    ByteBuffer out = ByteBuffer.allocate(bytes.length);
    for (int i = 0; i < bytes.length; i++) {
      int high = bytes[i] == '%' && i + 2 < bytes.length ? Character.digit(bytes[i + 1], 16) : -1;
      int low = high < 0 ? -1 : Character.digit(bytes[i + 2], 16);
      if (low >= 0) {
        out.put((byte) (high * 16 + low));
        i += 2;
      } else {
        out.put(bytes[i]);
      }
    }
    return new String(out.array(), 0, out.position(), StandardCharsets.UTF_8);
  }
}
