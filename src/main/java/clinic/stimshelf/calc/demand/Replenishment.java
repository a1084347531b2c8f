package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.util.OptionalDouble;

/**
 * When to order and how much, for one pad type with steady demand.
 *
 * @param point when to order
 * @param economicQuantity Wilson's lot size, where both costs are known
 * @param orderQuantity packs in one order, where given or derived; may be 0
 */
public record Replenishment(
    ReorderPoint point, OptionalDouble economicQuantity, OptionalDouble orderQuantity) {

  /**
   * What is known about ordering.
   *
   * @param orderQuantity a fixed quantity, above 0, whole or not; empty to derive it from the costs
   * @param orderCost of one order, 0 or more
   * @param holdingCostPerPackYear above 0
   * @param packsPerCase 1 or more
   * @param minimumOrder packs, 0 or more
   */
  public record Terms(
      OptionalDouble orderQuantity,
      OptionalDouble orderCost,
      OptionalDouble holdingCostPerPackYear,
      int packsPerCase,
      int minimumOrder) {

    /** Nothing is known. */
    public static final Terms NONE =
        new Terms(OptionalDouble.empty(), OptionalDouble.empty(), OptionalDouble.empty(), 1, 0);

    public Terms {
      orderQuantity.ifPresent(q -> Check.positive("orderQuantity", q));
      orderCost.ifPresent(c -> Check.notNegative("orderCost", c));
      holdingCostPerPackYear.ifPresent(c -> Check.positive("holdingCostPerPackYear", c));
      Check.within("packsPerCase", packsPerCase, 1, 1_000_000_000);
      Check.within("minimumOrder", minimumOrder, 0, 1_000_000_000);
    }

    /** Nothing but a fixed order quantity. */
    public static Terms quantity(double orderQuantity) {
      return new Terms(
          OptionalDouble.of(orderQuantity), OptionalDouble.empty(), OptionalDouble.empty(), 1, 0);
    }
  }

  /** {@code 1 − E[(D − s)+]/Q}; empty without an order quantity above 0. */
  public OptionalDouble fillRate() {
    return orderQuantity.isPresent() && orderQuantity.getAsDouble() > 0
        ? OptionalDouble.of(point.fillRate(orderQuantity.getAsDouble()))
        : OptionalDouble.empty();
  }

  /**
   * With a lead time known by its outcomes. Under normal demand only their mean and standard
   * deviation count: {@code sd = sqrt((L + R) sd_d² + d² sd_L²)}; whole packs get the exact
   * distribution, mixed over the outcomes.
   *
   * @param reviewDays 0 to 100 000, added to the lead time
   * @throws BadInput if a fill target has no order quantity, the mean demand over the longest
   *     protection interval is above 10 000 whole packs, or an answer is not a number
   */
  public static Replenishment of(
      DailyDemand demand, LeadTime leadTime, double reviewDays, Target target, Terms terms) {
    Check.within("reviewDays", reviewDays, 0, 100_000);
    if (demand instanceof DailyDemand.Normal normal) {
      return normal(normal, leadTime.mean(), leadTime.sd(), reviewDays, target, terms);
    }
    DailyDemand.Whole whole = (DailyDemand.Whole) demand;
    OptionalDouble economic = economic(demand, terms);
    OptionalDouble quantity = quantity(economic, terms);
    double matters = Math.min(1, quantity.orElse(1));
    double[] protectedDays =
        leadTime.outcomes().stream().mapToDouble(o -> o.days() + reviewDays).toArray();
    double days = leadTime.mean() + reviewDays;
    double mean = demand.mean() * days;
    double variance =
        demand.variance() * days + demand.mean() * demand.mean() * leadTime.variance();
    ReorderPoint point =
        ReorderPoint.of(
            whole.over(protectedDays, leadTime.probabilities(), matters),
            mean,
            Math.sqrt(variance),
            target,
            quantity);
    return finite(new Replenishment(point, economic, quantity));
  }

  /**
   * Normal demand with a lead time known by its mean and standard deviation.
   *
   * @param leadTimeMean days, 0 to 100 000
   * @param leadTimeSd days, 0 to 100 000
   * @throws BadInput as {@link #of}
   */
  public static Replenishment normal(
      DailyDemand.Normal demand,
      double leadTimeMean,
      double leadTimeSd,
      double reviewDays,
      Target target,
      Terms terms) {
    Check.within("leadTimeDays.mean", leadTimeMean, 0, 100_000);
    Check.within("leadTimeDays.sd", leadTimeSd, 0, 100_000);
    Check.within("reviewDays", reviewDays, 0, 100_000);
    OptionalDouble economic = economic(demand, terms);
    OptionalDouble quantity = quantity(economic, terms);
    double days = leadTimeMean + reviewDays;
    double sd = Math.hypot(Math.sqrt(days) * demand.sd(), demand.mean() * leadTimeSd);
    return finite(
        new Replenishment(
            ReorderPoint.normal(demand.mean() * days, sd, target, quantity), economic, quantity));
  }

  private static OptionalDouble economic(DailyDemand demand, Terms terms) {
    return terms.orderCost().isPresent() && terms.holdingCostPerPackYear().isPresent()
        ? OptionalDouble.of(
            EconomicOrder.quantity(
                demand.mean(),
                terms.orderCost().getAsDouble(),
                terms.holdingCostPerPackYear().getAsDouble()))
        : OptionalDouble.empty();
  }

  private static OptionalDouble quantity(OptionalDouble economic, Terms terms) {
    if (terms.orderQuantity().isPresent() || economic.isEmpty()) {
      return terms.orderQuantity();
    }
    double least = Math.max(economic.getAsDouble(), terms.minimumOrder());
    return OptionalDouble.of(Math.ceil(least / terms.packsPerCase()) * terms.packsPerCase());
  }

  private static Replenishment finite(Replenishment r) {
    for (double x :
        new double[] {
          r.point.reorderPoint(),
          r.point.meanDemand(),
          r.point.sdDemand(),
          r.point.safetyStock(),
          r.point.expectedShortPerCycle(),
          r.economicQuantity.orElse(0),
          r.orderQuantity.orElse(0),
          r.fillRate().orElse(0)
        }) {
      if (!Double.isFinite(x)) {
        throw new BadInput(
            "orderQuantity", "An answer would not be a finite number; use less extreme numbers.");
      }
    }
    return r;
  }
}
