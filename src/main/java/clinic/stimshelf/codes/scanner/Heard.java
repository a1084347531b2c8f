package clinic.stimshelf.codes.scanner;

import java.util.List;
import java.util.Map;

/**
 * What a scanner sent, sign by sign, so that somebody sees what the keyboard lost on the way.
 *
 * @param signs each character in its turn
 * @param symbology the identifier before the data, or empty where the scanner sends none
 * @param separators how often a separator or one of its substitutes came
 */
public record Heard(List<Sign> signs, String symbology, int separators) {

  private static final Map<Integer, String> NAMES =
      Map.of(
          0x1D,
          "separator",
          0x1E,
          "record mark",
          0x04,
          "end mark",
          '\t' + 0,
          "Tab",
          '\r' + 0,
          "Enter",
          '\n' + 0,
          "line feed",
          ' ' + 0,
          "blank",
          0xFEFF,
          "byte order mark");

  /**
   * One character.
   *
   * @param text the character itself, or the name of one that cannot be seen
   * @param seen whether it can be seen
   */
  public record Sign(String text, boolean seen) {}

  /** Takes a scan apart; it throws on none. */
  public static Heard of(String raw, Separators separators) {
    List<Sign> signs = raw.codePoints().mapToObj(Heard::sign).toList();
    String framed = ScannerText.withoutFrame(raw);
    String symbology = SymbologyId.startOf(framed).map(SymbologyId::text).orElse("");
    long found = separators.restore(raw).chars().filter(c -> c == ScannerText.SEPARATOR).count();
    return new Heard(signs, symbology, (int) found);
  }

  private static Sign sign(int c) {
    String name = NAMES.get(c);
    if (name != null) {
      return new Sign(name, false);
    }
    return c < ' ' || c == 0x7F
        ? new Sign("control %02X".formatted(c), false)
        : new Sign(Character.toString(c), true);
  }
}
