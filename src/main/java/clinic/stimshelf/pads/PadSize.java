package clinic.stimshelf.pads;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** A pad's size in words: inches, to the nearest quarter, and centimeters as the maker states. */
final class PadSize {
  private static final double MM_PER_INCH = 25.4;

  private PadSize() {}

  /** For instance "2 × 4 in" or "1.25 in round". */
  static String inches(PadShape shape, int widthMm, int heightMm) {
    return words(shape, quarter(widthMm), quarter(heightMm), "in");
  }

  /** For instance "5 × 10 cm" or "3.2 cm round". */
  static String centimeters(PadShape shape, int widthMm, int heightMm) {
    return words(shape, tenth(widthMm), tenth(heightMm), "cm");
  }

  private static String words(PadShape shape, String width, String height, String unit) {
    return switch (shape) {
      case ROUND -> width + " " + unit + " round";
      case OVAL -> width + " × " + height + " " + unit + " oval";
      case SUPPLY -> "";
      case RECTANGLE -> width + " × " + height + " " + unit;
    };
  }

  private static String quarter(int mm) {
    return plain(BigDecimal.valueOf(Math.round(mm / MM_PER_INCH * 4) / 4.0));
  }

  private static String tenth(int mm) {
    return plain(BigDecimal.valueOf(mm).divide(BigDecimal.TEN, 1, RoundingMode.UNNECESSARY));
  }

  private static String plain(BigDecimal number) {
    return number.stripTrailingZeros().toPlainString();
  }
}
