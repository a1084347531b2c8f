package clinic.stimshelf.calc;

/**
 * Argument checks shared by the calculations. Every condition is written as {@code !(allowed)}, so
 * that NaN is refused; each method returns its argument.
 */
public final class Check {

  private Check() {}

  /** Requires a finite number above zero. */
  public static double positive(String field, double x) {
    if (!(x > 0 && x <= Double.MAX_VALUE)) {
      throw new BadInput(field, field + " is " + x + ", but must be a number above 0.");
    }
    return x;
  }

  /** Requires a finite number that is zero or more. */
  public static double notNegative(String field, double x) {
    if (!(x >= 0 && x <= Double.MAX_VALUE)) {
      throw new BadInput(field, field + " is " + x + ", but must be a number of 0 or more.");
    }
    return x;
  }

  /** Requires {@code 0 <= p <= 1}. */
  public static double probability(String field, double p) {
    if (!(p >= 0 && p <= 1)) {
      throw new BadInput(field, field + " is " + p + ", but must lie from 0 to 1.");
    }
    return p;
  }

  /** Requires {@code 0 < p < 1}. */
  public static double insideUnit(String field, double p) {
    if (!(p > 0 && p < 1)) {
      throw new BadInput(
          field, field + " is " + p + ", but must lie between 0 and 1, both excluded.");
    }
    return p;
  }

  /** Requires {@code low <= n <= high}. */
  public static int within(String field, int n, int low, int high) {
    return (int) within(field, (long) n, low, high);
  }

  /** Requires {@code low <= n <= high}. */
  public static long within(String field, long n, long low, long high) {
    if (!(n >= low && n <= high)) {
      throw new BadInput(
          field,
          field + " is " + n + ", but must be a whole number from " + low + " to " + high + ".");
    }
    return n;
  }

  /** Requires {@code low <= x <= high}. */
  public static double within(String field, double x, double low, double high) {
    if (!(x >= low && x <= high)) {
      throw new BadInput(
          field, field + " is " + x + ", but must be a number from " + low + " to " + high + ".");
    }
    return x;
  }
}
