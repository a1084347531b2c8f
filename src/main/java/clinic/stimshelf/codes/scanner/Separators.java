package clinic.stimshelf.codes.scanner;

import java.util.Comparator;
import java.util.List;

/**
 * The texts that a clinic's scanners send in place of the separator 0x1D, which many keyboard
 * wedges cannot type. A substitute stands for a separator wherever it occurs in GS1 data, so one
 * that may be part of a lot or serial number (letters and digits alone) is refused.
 *
 * @param substitutes longest first; 0x1D itself is always a separator and is not listed
 */
public record Separators(List<String> substitutes) {

  /**
   * Ctrl-] as text, the spelled-out name, the tilde and the control picture. Of their characters
   * only {@code <} and {@code >} may occur in GS1 data at all.
   */
  public static final Separators DEFAULT = of("^]", "<GS>", "~", "\u241D");

  public Separators {
    for (String substitute : substitutes) {
      if (substitute.isEmpty() || substitute.chars().allMatch(Separators::isLetterOrDigit)) {
        throw new IllegalArgumentException(
            "The separator substitute '%s' could be part of a lot number: use one with a sign in it, such as ~ or <F8>."
                .formatted(substitute));
      }
    }
    substitutes =
        substitutes.stream().sorted(Comparator.comparingInt(String::length).reversed()).toList();
  }

  /** The given substitutes only, besides 0x1D. */
  public static Separators of(String... substitutes) {
    return new Separators(List.of(substitutes));
  }

  /** GS1 data with every substitute turned into 0x1D. */
  public String restore(String data) {
    String restored = data;
    for (String substitute : substitutes) {
      restored = restored.replace(substitute, String.valueOf(ScannerText.SEPARATOR));
    }
    return restored;
  }

  /** Whether the data begins with a separator or one of its substitutes. */
  public boolean isAtStartOf(String data) {
    return data.startsWith(String.valueOf(ScannerText.SEPARATOR))
        || substitutes.stream().anyMatch(data::startsWith);
  }

  private static boolean isLetterOrDigit(int c) {
    return c < 128 && Character.isLetterOrDigit(c);
  }
}
