package clinic.stimshelf.calc.outcome;

import clinic.stimshelf.calc.Check;

/**
 * Limb symmetry index: {@code LSI % = 100 · involved / uninvolved} (Gokeler 2017, <i>Knee Surg
 * Sports Traumatol Arthrosc</i> 25:192). Where less is better, as in a timed hop, the quotient is
 * turned over, {@code 100 · uninvolved / involved} (from memory), so that 100 is always alike and
 * less is always behind.
 *
 * <p>It compares with the other limb as it is on that day: where that limb weakened as well, the
 * index looks better than the recovery is.
 *
 * @param percent 0 or more
 * @param involved value of the treated side, in the measure's own unit
 * @param uninvolved value of the other side, in the same unit
 * @param lessIsBetter whether the quotient was turned over
 */
public record Symmetry(double percent, double involved, double uninvolved, boolean lessIsBetter) {

  /**
   * @param involved 0 or more; above 0 where less is better
   * @param uninvolved above 0
   * @throws clinic.stimshelf.calc.BadInput naming the value that is out of range
   */
  public static Symmetry of(double involved, double uninvolved, boolean lessIsBetter) {
    Check.positive("uninvolved", uninvolved);
    if (lessIsBetter) {
      Check.positive("involved", involved);
      return new Symmetry(100 * uninvolved / involved, involved, uninvolved, true);
    }
    Check.notNegative("involved", involved);
    return new Symmetry(100 * involved / uninvolved, involved, uninvolved, false);
  }

  /**
   * Whether the index has come to a threshold.
   *
   * @param threshold in percent, above 0
   * @param exactlyCounts whether exactly the threshold has; published criteria differ in it
   */
  public boolean reached(double threshold, boolean exactlyCounts) {
    Check.positive("threshold", threshold);
    return exactlyCounts ? percent >= threshold : percent > threshold;
  }
}
