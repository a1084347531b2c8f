package clinic.stimshelf.codes.udi;

import clinic.stimshelf.codes.scanner.ScannerText;
import clinic.stimshelf.codes.scanner.Separators;
import clinic.stimshelf.codes.scanner.SymbologyId;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Reads device labels as scanned or typed. It throws on no text at all: what is wrong stands among
 * the problems of the reading.
 *
 * <p>Sources: GS1 General Specifications (application identifiers §3, check digit §7.9, century
 * §7.12), ANSI/HIBC 2.6, and FDA's list of the issuing agencies' formats.
 *
 * @param currentYear the year by which two-digit years are understood; make a reader anew rather
 *     than keep one over New Year
 * @param separators what the clinic's scanners send in place of the separator
 */
public record UdiReader(int currentYear, Separators separators) {

  /** Longer scans hold something else. The longest symbol that we draw holds 3116 digits. */
  private static final int LONGEST = 4_000;

  private static final Pattern BRACKETED = Pattern.compile("\\(\\d{2,4}\\)");
  private static final Pattern PRODUCT_DIGITS = Pattern.compile("\\d{8}|\\d{12,14}");

  public UdiReader {
    if (currentYear < 1000 || currentYear > 9000) {
      throw new IllegalArgumentException(
          "%d is not a year from 1000 to 9000.".formatted(currentYear));
    }
  }

  /** A reader with the usual substitutes for the separator. */
  public static UdiReader of(int currentYear) {
    return new UdiReader(currentYear, Separators.DEFAULT);
  }

  /** Reads one symbol. */
  public Udi read(String raw) {
    Draft draft = new Draft(raw, currentYear);
    String scan = begin(raw, draft);
    if (scan == null) {
      return draft.toUdi();
    }
    String data = SymbologyId.dropFrom(scan);
    Issuer issuer = issuerOf(scan);
    if (issuer == Issuer.GS1 || beginsLikeProduct(ScannerText.plain(data))) {
      Gs1Reading reading = new Gs1Reading(draft);
      gs1(reading, scan, draft);
      reading.close();
    } else if (issuer == Issuer.HIBCC) {
      new HibcReading(draft).read(data);
    } else if (issuer == Issuer.ICCBBA) {
      new IccbbaReading(draft).read(ScannerText.plain(data));
    } else {
      draft.refuse(
          "'%s' is not a device's label: scan the square or striped symbol beside the word UDI.",
          data);
    }
    return draft.toUdi();
  }

  /**
   * Reads a label that is printed as two symbols, the product's first.
   *
   * @return the reading of both; its raw text is the two scans with a line feed between
   */
  public Udi readPair(String first, String second) {
    Draft draft = new Draft(first + "\n" + second, currentYear);
    String one = begin(first, draft);
    String two = one == null ? null : begin(second, draft);
    if (one == null || two == null) {
      return draft.toUdi();
    }
    String dataOne = SymbologyId.dropFrom(one);
    String dataTwo = SymbologyId.dropFrom(two);
    if (issuerOf(one) == Issuer.HIBCC && issuerOf(two) == Issuer.HIBCC) {
      new HibcReading(draft).readPair(dataOne, dataTwo);
    } else if (issuerOf(one) == Issuer.GS1) {
      Gs1Reading reading = new Gs1Reading(draft);
      gs1(reading, one, draft);
      // The second symbol alone names no product, so only its scanner's mark tells that it is GS1.
      if (dataTwo.startsWith("(")) {
        reading.bracketed(dataTwo);
      } else {
        reading.elementString(separators.restore(ScannerText.plain(dataTwo)));
      }
      reading.close();
    } else {
      draft.refuse(
          "These two symbols are not the two halves of one label: scan the product's symbol first.");
    }
    return draft.toUdi();
  }

  /**
   * Whose label this looks like, before it is read; null if it looks like none. Digits alone are
   * taken for a product number where their check digit fits.
   */
  public @Nullable Issuer issuerOf(String raw) {
    String scan = ScannerText.withoutFrame(raw);
    Optional<SymbologyId> id = SymbologyId.startOf(scan);
    if (id.isPresent() && id.get().content() != SymbologyId.Content.OTHER) {
      return Issuer.GS1;
    }
    String data = SymbologyId.dropFrom(scan);
    if (data.startsWith("+") || data.startsWith("*+")) {
      return Issuer.HIBCC;
    }
    if (data.startsWith("=") || data.startsWith("&")) {
      return Issuer.ICCBBA;
    }
    String plain = ScannerText.plain(data);
    boolean gs1 =
        isLink(plain)
            || BRACKETED.matcher(plain).lookingAt()
            || separators.isAtStartOf(plain)
            || (PRODUCT_DIGITS.matcher(plain).matches() && Mod10.closes(plain))
            || (beginsLikeProduct(plain) && Mod10.closes(plain.substring(2, 16)));
    return gs1 ? Issuer.GS1 : null;
  }

  /** Whether a text begins with 01 and fourteen digits, whose check digit may still be wrong. */
  public static boolean beginsLikeProduct(String text) {
    return text.startsWith("01")
        && text.length() >= 16
        && LabelDates.isDigits(text.substring(0, 16), 16);
  }

  private @Nullable String begin(String raw, Draft draft) {
    String scan = ScannerText.withoutFrame(raw);
    if (scan.length() > LONGEST) {
      draft.refuse(
          "This has %d characters, more than a label holds: scan one label.", scan.length());
      return null;
    }
    Optional<SymbologyId> id = SymbologyId.startOf(scan);
    if (id.isPresent()) {
      draft.symbology = id.get().text();
    } else if (scan.startsWith("]")) {
      draft.refuse(
          "'%s' does not begin with a kind of symbol that we know: scan again.",
          scan.substring(0, Math.min(3, scan.length())));
      return null;
    }
    if (ScannerText.plain(SymbologyId.dropFrom(scan)).isEmpty()) {
      draft.refuse("There is nothing to read: scan the label.");
      return null;
    }
    return scan;
  }

  private void gs1(Gs1Reading reading, String scan, Draft draft) {
    SymbologyId.Content content =
        SymbologyId.startOf(scan).map(SymbologyId::content).orElse(SymbologyId.Content.OTHER);
    String data = ScannerText.plain(SymbologyId.dropFrom(scan));
    switch (content) {
      case GS1 -> reading.elementString(separators.restore(data));
      case GTIN_13 -> digits(reading, data, 13, draft);
      case GTIN_8 -> digits(reading, data, 8, draft);
      case OTHER -> {
        if (isLink(data)) {
          reading.link(data);
        } else if (data.startsWith("(")) {
          reading.bracketed(data);
        } else if (PRODUCT_DIGITS.matcher(data).matches()) {
          reading.product(data);
        } else {
          reading.elementString(separators.restore(data));
        }
      }
    }
  }

  private static void digits(Gs1Reading reading, String data, int length, Draft draft) {
    if (LabelDates.isDigits(data, length)) {
      reading.product(data);
    } else {
      draft.refuse("This symbol must hold %d digits, not '%s': scan again.", length, data);
    }
  }

  private static boolean isLink(String data) {
    String start = data.substring(0, Math.min(8, data.length())).toLowerCase(Locale.ROOT);
    return start.equals("https://") || start.startsWith("http://");
  }
}
