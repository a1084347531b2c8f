package clinic.stimshelf.codes.scanner;

import java.util.Map;
import java.util.Optional;

/**
 * The three characters that a scanner may be set to send before a symbol's data (ISO/IEC 15424, as
 * the GS1 General Specifications list them).
 *
 * @param text the identifier as sent, such as {@code ]d2}
 * @param content what kind of data the symbol holds
 */
public record SymbologyId(String text, Content content) {

  /** What a symbol says about its data. */
  public enum Content {
    /** GS1 element strings. */
    GS1,
    /** The thirteen digits of an EAN-13 (or UPC-A). */
    GTIN_13,
    /** The eight digits of an EAN-8. */
    GTIN_8,
    /** Anything at all. */
    OTHER
  }

  private static final Map<String, Content> SPECIAL =
      Map.of(
          "]C1", Content.GS1,
          "]d2", Content.GS1,
          "]Q3", Content.GS1,
          "]e0", Content.GS1,
          "]E0", Content.GTIN_13,
          "]E4", Content.GTIN_8);

  /** Code 39, 93, 128, Codabar, Interleaved 2 of 5, DataMatrix, QR, PDF417, Aztec, plain. */
  private static final String KNOWN_LETTERS = "AGCFIdQLzX";

  /** The identifier at the start of a scan, if there is one that is known. */
  public static Optional<SymbologyId> startOf(String scan) {
    if (scan.length() < 3 || scan.charAt(0) != ']') {
      return Optional.empty();
    }
    String text = scan.substring(0, 3);
    Content special = SPECIAL.get(text);
    if (special != null) {
      return Optional.of(new SymbologyId(text, special));
    }
    boolean known =
        KNOWN_LETTERS.indexOf(text.charAt(1)) >= 0
            && text.charAt(2) < 128
            && Character.isLetterOrDigit(text.charAt(2));
    return known ? Optional.of(new SymbologyId(text, Content.OTHER)) : Optional.empty();
  }

  /** The scan without the identifier. */
  public static String dropFrom(String scan) {
    return startOf(scan).isPresent() ? scan.substring(3) : scan;
  }
}
