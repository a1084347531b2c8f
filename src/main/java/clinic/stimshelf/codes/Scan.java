package clinic.stimshelf.codes;

import clinic.stimshelf.codes.scanner.ScannerText;
import clinic.stimshelf.codes.scanner.SymbologyId;
import clinic.stimshelf.codes.udi.Issuer;
import clinic.stimshelf.codes.udi.Udi;
import clinic.stimshelf.codes.udi.UdiReader;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What a scanned or typed text is, as far as can be told without knowing the clinic: which unit,
 * patient or lot it belongs to, the rooms find out.
 */
public sealed interface Scan {

  /** One of our own tags, its check character right. */
  record OwnTag(Tag tag) implements Scan {}

  /**
   * Looks like one of our tags, but the check character is wrong: it must not find a unit.
   *
   * @param text as read
   * @param problem what to do, in words
   */
  record MisreadTag(String text, String problem) implements Scan {}

  /** A device's label, readable or not; its problems say what is wrong. */
  record DeviceLabel(Udi udi) implements Scan {}

  /**
   * Anything else: a chart number, a name, a tag that the clinic made itself, or digits that could
   * be a product number.
   *
   * @param text without frame and blanks
   * @param tag the text as a foreign tag, where it may be one
   * @param label the text as a device's label, where it may be one
   */
  record Words(String text, @Nullable Tag tag, @Nullable Udi label) implements Scan {}

  /** There was no text. */
  record Nothing() implements Scan {}

  /** Sorts a text; it throws on none. */
  static Scan of(String raw, UdiReader reader) {
    String framed = ScannerText.withoutFrame(raw);
    String text = ScannerText.plain(SymbologyId.dropFrom(framed));
    if (text.isEmpty() && !framed.startsWith("]")) {
      return new Nothing();
    }
    Optional<String> tagProblem = Tag.problemWith(raw);
    Tag tag = tagProblem.isEmpty() ? Tag.of(raw) : null;
    if (tag != null && tag.isOwn()) {
      return new OwnTag(tag);
    }
    if (tagProblem.isPresent() && Tag.isMisread(raw)) {
      return new MisreadTag(text, tagProblem.get());
    }
    if (isLabel(framed, text, reader)) {
      return new DeviceLabel(reader.read(raw));
    }
    return new Words(text, tag, mayBeLabel(text, reader) ? reader.read(raw) : null);
  }

  private static boolean isLabel(String framed, String text, UdiReader reader) {
    Optional<SymbologyId> id = SymbologyId.startOf(framed);
    if (framed.startsWith("]")
        && (text.isEmpty() || id.isEmpty() || id.get().content() != SymbologyId.Content.OTHER)) {
      return true;
    }
    Issuer issuer = reader.issuerOf(framed);
    if (issuer == null) {
      return false;
    }
    // People type telephone numbers, which begin like the labels of two issuers.
    boolean telephone =
        text.chars().allMatch(c -> "+()-. 0123456789".indexOf(c) >= 0)
            && !text.startsWith("(01)")
            && !UdiReader.beginsLikeProduct(text);
    return !telephone || (issuer == Issuer.HIBCC && reader.read(framed).usable());
  }

  /** Digits that fit a product number, or a misread label whose product number does not fit. */
  private static boolean mayBeLabel(String text, UdiReader reader) {
    boolean digits = text.chars().allMatch(c -> c >= '0' && c <= '9');
    return (digits && reader.issuerOf(text) != null) || UdiReader.beginsLikeProduct(text);
  }
}
