package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.Check;

/** The lot size at which ordering and holding cost the same (Harris 1913; from memory). */
public final class EconomicOrder {

  private static final double DAYS_A_YEAR = 365;

  private EconomicOrder() {}

  /**
   * {@code sqrt(2 · 365 · meanPerDay · orderCost / holdingCostPerPackYear)}.
   *
   * @param meanPerDay packs a day, 0 or more
   * @param orderCost of one order, 0 or more
   * @param holdingCostPerPackYear above 0
   */
  public static double quantity(
      double meanPerDay, double orderCost, double holdingCostPerPackYear) {
    Check.notNegative("demand.meanPerDay", meanPerDay);
    Check.notNegative("orderCost", orderCost);
    Check.positive("holdingCostPerPackYear", holdingCostPerPackYear);
    return Math.sqrt(2 * DAYS_A_YEAR * meanPerDay * orderCost / holdingCostPerPackYear);
  }
}
