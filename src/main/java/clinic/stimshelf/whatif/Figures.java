package clinic.stimshelf.whatif;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;

/** Numbers as people read them: rounded for the page only. */
final class Figures {
  private Figures() {}

  /** One decimal, none where it is whole. */
  static String number(double x) {
    return trimmed(BigDecimal.valueOf(x).setScale(1, RoundingMode.HALF_EVEN));
  }

  /** So many out of 100; what is small keeps two digits. */
  static String of100(double share) {
    double percent = 100 * share;
    if (percent == 0) {
      return "0";
    }
    if (percent < 1e-4) {
      return "less than 0.0001";
    }
    return trimmed(
        percent < 1
            ? new BigDecimal(percent).round(new MathContext(2, RoundingMode.HALF_EVEN))
            : BigDecimal.valueOf(percent).setScale(1, RoundingMode.HALF_EVEN));
  }

  /** As a person would type it. */
  static String typed(double x) {
    return trimmed(BigDecimal.valueOf(x).setScale(2, RoundingMode.HALF_EVEN));
  }

  /** A place in a drawing. */
  static String place(double x) {
    return String.format(Locale.ROOT, "%.1f", x);
  }

  private static String trimmed(BigDecimal x) {
    return x.signum() == 0 ? "0" : x.stripTrailingZeros().toPlainString();
  }
}
