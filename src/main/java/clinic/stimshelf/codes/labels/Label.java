package clinic.stimshelf.codes.labels;

import clinic.stimshelf.codes.Tag;
import clinic.stimshelf.codes.udi.Issuer;
import clinic.stimshelf.codes.udi.Udi;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;

/**
 * What a label carries. A label leaves the clinic with the unit, so neither caption nor title may
 * say who is treated, or for what.
 *
 * @param kind the symbol to draw
 * @param data what the symbol holds; for GS1 each identifier in square brackets before its value
 * @param gs1 whether the symbol is a GS1 one
 * @param lines the text beneath, the symbol's own content first; 1 to {@value #MOST_LINES} lines of
 *     at most {@value #LONGEST_LINE} characters
 * @param title what a screen reader says
 */
public record Label(SymbolKind kind, String data, boolean gs1, List<String> lines, String title) {

  static final int MOST_LINES = 8;
  static final int LONGEST_LINE = 60;

  /** The longest text that bars carry on any label stock; squares of dots take more. */
  private static final int LONGEST_DATA = 200;

  /** Where the length is known to every scanner; they come first, so that separators are few. */
  private static final Set<String> FIXED = Set.of("11", "12", "13", "15", "16", "17", "20");

  public Label {
    if (data.isEmpty()
        || data.length() > LONGEST_DATA
        || !data.chars().allMatch(c -> c >= ' ' && c <= '~')) {
      throw new IllegalArgumentException(
          "A symbol holds 1 to %d letters, digits and signs (ASCII); this text has %d characters, or others among them."
              .formatted(LONGEST_DATA, data.length()));
    }
    lines = lines.stream().map(Label::printable).filter(line -> !line.isEmpty()).toList();
    if (lines.isEmpty() || lines.size() > MOST_LINES) {
      throw new IllegalArgumentException(
          "A label has 1 to %d lines beneath its symbol, not %d."
              .formatted(MOST_LINES, lines.size()));
    }
    for (String line : lines) {
      if (line.length() > LONGEST_LINE) {
        throw new IllegalArgumentException(
            "The line '%s' has %d characters; %d fit on a label."
                .formatted(line, line.length(), LONGEST_LINE));
      }
    }
    title = printable(title);
  }

  /** A tag's label: the tag beneath the symbol, then the captions. */
  public static Label of(Tag tag, SymbolKind kind, String... captions) {
    return new Label(
        kind,
        tag.text(),
        false,
        Stream.concat(Stream.of(tag.text()), Stream.of(captions)).toList(),
        "Tag " + tag.text());
  }

  /**
   * A device's GS1 label, for what was taken out of its own package: every element of the original,
   * each on a line beneath, identifiers in round brackets.
   *
   * @throws IllegalArgumentException if the label is not a usable one of GS1: the drawing would
   *     repeat what was misread
   */
  public static Label of(Udi udi, SymbolKind kind) {
    if (!udi.usable() || udi.issuer() != Issuer.GS1) {
      throw new IllegalArgumentException(
          udi.usable()
              ? "Only GS1 labels can be drawn again; use a tag of our own for this pack."
              : "This label was misread and is not drawn again: "
                  + String.join(" ", udi.problems()));
    }
    List<Map.Entry<String, String>> ordered =
        Stream.of(0, 1, 2)
            .flatMap(rank -> udi.elements().entrySet().stream().filter(e -> rank(e) == rank))
            .toList();
    StringBuilder data = new StringBuilder();
    ordered.forEach(e -> data.append('[').append(e.getKey()).append(']').append(e.getValue()));
    return new Label(
        kind,
        data.toString(),
        true,
        ordered.stream().map(e -> "(" + e.getKey() + ")" + e.getValue()).toList(),
        "Device label " + udi.deviceIdentifier());
  }

  private static int rank(Map.Entry<String, String> element) {
    if (element.getKey().equals("01")) {
      return 0;
    }
    return FIXED.contains(element.getKey()) ? 1 : 2;
  }

  /** Text that XML may hold, on one line. */
  private static String printable(String text) {
    StringBuilder clean = new StringBuilder();
    text.codePoints()
        .map(c -> Character.isWhitespace(c) ? ' ' : c)
        .filter(c -> c >= ' ' && c != 0x7F && !(c >= 0xD800 && c <= 0xDFFF) && c < 0xFFFE)
        .forEach(clean::appendCodePoint);
    return clean.toString().strip();
  }
}
