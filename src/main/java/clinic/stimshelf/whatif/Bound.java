package clinic.stimshelf.whatif;

import java.math.BigDecimal;

/** What a number may be, with the words that say so. */
record Bound(BigDecimal least, boolean above, BigDecimal most, boolean below, boolean whole) {
  private static final BigDecimal BILLION = BigDecimal.valueOf(1_000_000_000);
  private static final BigDecimal LONGEST = BigDecimal.valueOf(100_000);

  /** Days, seconds or uses. */
  static final Bound SPAN = new Bound(BigDecimal.ZERO, false, LONGEST, false, false);

  static final Bound SPAN_ABOVE_0 = new Bound(BigDecimal.ZERO, true, LONGEST, false, false);
  static final Bound AMOUNT = new Bound(BigDecimal.ZERO, false, BILLION, false, false);
  static final Bound AMOUNT_ABOVE_0 = new Bound(BigDecimal.ZERO, true, BILLION, false, false);

  /** Values of targets, confidence, reliability. */
  static final Bound INSIDE = new Bound(BigDecimal.ZERO, true, BigDecimal.ONE, true, false);

  static final Bound PROBABILITY = new Bound(BigDecimal.ZERO, false, BigDecimal.ONE, false, false);
  static final Bound SOME_SHARE = new Bound(BigDecimal.ZERO, true, BigDecimal.ONE, false, false);
  static final Bound COUNT = whole(0, 1_000_000_000);
  static final Bound COUNT_FROM_1 = whole(1, 1_000_000_000);

  static Bound whole(long least, long most) {
    return new Bound(BigDecimal.valueOf(least), false, BigDecimal.valueOf(most), false, true);
  }

  /** A number for the calculation where the one given is refused; nothing is computed from it. */
  static final BigDecimal STAND_IN = BigDecimal.ONE;

  boolean allows(BigDecimal x) {
    int low = x.compareTo(least);
    int high = x.compareTo(most);
    return (above ? low > 0 : low >= 0)
        && (below ? high < 0 : high <= 0)
        && (!whole || x.stripTrailingZeros().scale() <= 0)
        && staysInside(x.doubleValue());
  }

  /** What is nearer to an excluded end than a double can tell would be that end. */
  private boolean staysInside(double x) {
    return !(above && x <= least.doubleValue()) && !(below && x >= most.doubleValue());
  }

  String words() {
    String kind = whole ? "a whole number" : "a number";
    if (above && below) {
      return kind + " between " + plain(least) + " and " + plain(most) + ", both excluded";
    }
    if (above) {
      return kind + " above " + plain(least) + " and at most " + plain(most);
    }
    return kind + " from " + plain(least) + " to " + plain(most);
  }

  private static String plain(BigDecimal x) {
    return x.toPlainString();
  }
}
