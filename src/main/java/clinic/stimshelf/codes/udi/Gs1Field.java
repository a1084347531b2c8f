package clinic.stimshelf.codes.udi;

import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The application identifiers that a device's label may carry, from the GS1 syntax dictionary
 * (github gs1/gs1-syntax-dictionary, release of 2026-01-27, Apache-2.0).
 *
 * @param ai two to four digits
 * @param name what it is, in words for a message
 * @param digitsOnly digits, or else the 82 characters of {@link #isAllowed}
 * @param fixed a length that every reader knows, so that no separator follows
 * @param length the length, or the longest where it varies
 */
record Gs1Field(String ai, String name, boolean digitsOnly, boolean fixed, int length) {

  private static final String SIGNS = "!\"%&'()*+,-./:;<=>?_";

  private static final Map<String, Gs1Field> BY_AI = new HashMap<>();

  static {
    fixed("01", "product number (GTIN)", 14);
    fixed("11", "production date", 6);
    fixed("12", "due date", 6);
    fixed("13", "packaging date", 6);
    fixed("15", "best-before date", 6);
    fixed("16", "sell-by date", 6);
    fixed("17", "expiry date", 6);
    fixed("20", "variant", 2);
    text("10", "lot", 20);
    text("21", "serial number", 20);
    text("22", "product variant", 20);
    text("235", "third party's serial number", 28);
    text("240", "additional identification", 30);
    text("241", "customer part number", 30);
    number("242", "made-to-order variation", 6);
    text("243", "packaging component number", 20);
    text("250", "secondary serial number", 30);
    text("251", "reference to source", 30);
    number("30", "count", 8);
    number("37", "count of a logistic unit", 8);
    text("400", "order number", 30);
    for (int i = 710; i <= 715; i++) {
      text(String.valueOf(i), "national reimbursement number", 20);
    }
    text("8012", "software version", 20);
    text("90", "internal information", 30);
    for (int i = 91; i <= 99; i++) {
      text(String.valueOf(i), "internal information", 90);
    }
  }

  private static void fixed(String ai, String name, int length) {
    BY_AI.put(ai, new Gs1Field(ai, name, true, true, length));
  }

  private static void number(String ai, String name, int length) {
    BY_AI.put(ai, new Gs1Field(ai, name, true, false, length));
  }

  private static void text(String ai, String name, int length) {
    BY_AI.put(ai, new Gs1Field(ai, name, false, false, length));
  }

  static @Nullable Gs1Field of(String ai) {
    return BY_AI.get(ai);
  }

  /** The field whose identifier stands at this place; no identifier is the start of another. */
  static @Nullable Gs1Field at(String data, int from) {
    for (int length = 2; length <= 4 && from + length <= data.length(); length++) {
      Gs1Field field = of(data.substring(from, from + length));
      if (field != null) {
        return field;
      }
    }
    return null;
  }

  /** Whether it says something about a product, and so needs the product's number beside it. */
  boolean needsProduct() {
    return !(ai.equals("01") || ai.equals("37") || ai.equals("400") || ai.startsWith("9"));
  }

  /** A date of six digits. */
  boolean isDate() {
    return fixed && length == 6;
  }

  /** GS1's character set 82 (General Specifications §7.11): no blank, number sign or at sign. */
  boolean isAllowed(int c) {
    boolean digit = c >= '0' && c <= '9';
    return digitsOnly
        ? digit
        : digit || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || SIGNS.indexOf(c) >= 0;
  }
}
