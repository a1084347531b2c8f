package clinic.stimshelf.calc.outcome;

import clinic.stimshelf.calc.Check;

/**
 * Girth of both limbs at the same height: {@code difference = uninvolved − involved}, in
 * centimetres; above 0 where the treated limb is the thinner one. Girth says little of strength: it
 * explained about 13 % of limb symmetry (Krahn 2025, <i>Int J Sports Phys Ther</i>), so never by
 * itself.
 *
 * @param involved centimetres
 * @param uninvolved centimetres
 * @param difference centimetres
 */
public record Girth(double involved, double uninvolved, double difference) {
  /** Exact since 1959. */
  private static final double CM_PER_INCH = 2.54;

  /**
   * @param involved above 0, centimetres
   * @param uninvolved above 0, centimetres
   */
  public static Girth of(double involved, double uninvolved) {
    Check.positive("involved", involved);
    Check.positive("uninvolved", uninvolved);
    return new Girth(involved, uninvolved, uninvolved - involved);
  }

  /** Inches of so many centimetres. */
  public static double inches(double centimetres) {
    return centimetres / CM_PER_INCH;
  }
}
