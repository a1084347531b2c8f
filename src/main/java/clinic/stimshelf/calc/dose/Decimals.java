package clinic.stimshelf.calc.dose;

import clinic.stimshelf.calc.BadInput;
import java.math.BigDecimal;

/** Exact decimals out of what a person typed. */
final class Decimals {

  private static final BigDecimal MOST_SECONDS = BigDecimal.valueOf(100_000);

  /** Digits after the point that a double can print; more would only make exact division slow. */
  private static final int MOST_DIGITS = 400;

  private Decimals() {}

  /** Requires a time in seconds from 0 to 100 000. */
  static void time(String field, BigDecimal x) {
    within(field, x, MOST_SECONDS);
  }

  /** Requires {@code 0 <= x <= most}, with a reasonable number of digits. */
  static void within(String field, BigDecimal x, BigDecimal most) {
    if (!(x.signum() >= 0 && x.compareTo(most) <= 0 && x.scale() <= MOST_DIGITS)) {
      throw new BadInput(
          field,
          field + " is " + x + ", but must be a number from 0 to " + most.toPlainString() + ".");
    }
  }

  /** The shortest decimal that prints {@code x}: 0.1 is one tenth, not its nearest binary. */
  static BigDecimal of(String field, double x) {
    if (!Double.isFinite(x)) {
      throw new BadInput(field, field + " is " + x + ", but must be a number.");
    }
    return BigDecimal.valueOf(x);
  }

  /** Without trailing zeros and without an exponent, so that it prints as a person writes it. */
  static BigDecimal plain(BigDecimal x) {
    BigDecimal stripped = x.stripTrailingZeros();
    return stripped.scale() < 0 ? stripped.setScale(0) : stripped;
  }
}
