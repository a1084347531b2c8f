package clinic.stimshelf.review;

import io.quarkus.qute.TemplateExtension;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.util.Locale;

/** Money and packs as people read them: a true minus, and a plus where it is a difference. */
public final class Amounts {
  private static final String MINUS = "−";

  private Amounts() {}

  /** 1,234.50 or −12.00. */
  @TemplateExtension
  public static String money(BigDecimal amount) {
    return signed(amount, 2, "");
  }

  /** +12.00, −3.10 or 0.00. */
  @TemplateExtension
  public static String moneyMore(BigDecimal amount) {
    return signed(amount, 2, "+");
  }

  /** 12.5 packs. */
  @TemplateExtension
  public static String packs(BigDecimal packs) {
    return signed(packs, 2, "");
  }

  @TemplateExtension
  public static String packsMore(BigDecimal packs) {
    return signed(packs, 2, "+");
  }

  /** $1,234.50, or EUR 1,234.50 where the sign is another's. */
  public static String in(String currency, BigDecimal amount) {
    return amount.signum() < 0
        ? MINUS + in(currency, amount.negate())
        : ("USD".equals(currency) ? "$" : currency + " ") + money(amount);
  }

  /** So many of 100, with one decimal where it is small. */
  static String of100(double share) {
    double percent = 100 * share;
    if (percent > 0 && percent < 0.05) {
      return "under 0.1";
    }
    return new DecimalFormat(
            percent < 10 ? "0.#" : "0", DecimalFormatSymbols.getInstance(Locale.US))
        .format(percent);
  }

  /** One decimal. */
  static String tenths(double x) {
    return String.format(Locale.US, "%.1f", x);
  }

  private static String signed(BigDecimal amount, int places, String plus) {
    DecimalFormat format =
        new DecimalFormat(
            "#,##0" + (places > 0 ? "." + "0".repeat(places) : ""),
            DecimalFormatSymbols.getInstance(Locale.US));
    format.setRoundingMode(RoundingMode.HALF_EVEN);
    BigDecimal rounded = amount.setScale(places, RoundingMode.HALF_EVEN);
    return (rounded.signum() < 0 ? MINUS : rounded.signum() > 0 ? plus : "")
        + format.format(rounded.abs());
  }
}
