package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * When to order: at or below {@code reorderPoint}. A cycle is taken to start exactly there (no
 * undershoot), and demand that is not met waits.
 *
 * @param reorderPoint s; whole for counts, any number for normal demand, where it may be negative
 * @param meanDemand over the protection interval
 * @param sdDemand over the protection interval
 * @param chanceOfStockout {@code P(D > s)}
 * @param expectedShortPerCycle {@code E[(D − s)+]}
 */
public record ReorderPoint(
    double reorderPoint,
    double meanDemand,
    double sdDemand,
    double chanceOfStockout,
    double expectedShortPerCycle) {

  private static final NormalDistribution UNIT = NormalDistribution.of(0, 1);

  /** What is held above the mean demand; negative where the level is low. */
  public double safetyStock() {
    return reorderPoint - meanDemand;
  }

  /** {@code 1 − E[(D − s)+]/Q}, not clipped: negative where a cycle is short of more than Q. */
  public double fillRate(double orderQuantity) {
    return 1 - expectedShortPerCycle / Check.positive("orderQuantity", orderQuantity);
  }

  /**
   * The smallest whole s of 0 or more that meets the target; a level missed by less than 1e-12
   * counts as met.
   *
   * @param demand over the protection interval
   * @param orderQuantity packs in one order; needed for a fill target
   * @throws BadInput if a fill target has no order quantity
   */
  public static ReorderPoint of(Counts demand, Target target, OptionalDouble orderQuantity) {
    return of(demand, demand.mean(), demand.sd(), target, orderQuantity);
  }

  static ReorderPoint of(
      Counts demand, double mean, double sd, Target target, OptionalDouble orderQuantity) {
    double least = target.value() - Counts.TOLERANCE;
    long s;
    if (target.kind() == Target.Kind.CYCLE) {
      s = demand.quantile(target.value());
    } else {
      double quantity = quantity(orderQuantity);
      s = Levels.smallest(k -> 1 - demand.shortfall(k) / quantity >= least);
    }
    return new ReorderPoint(s, mean, sd, demand.above(s), demand.shortfall(s));
  }

  /**
   * Normal demand: {@code s = mean + z sd} with {@code Φ(z) = level} for a cycle target, or {@code
   * G(z) = Q (1 − level)/sd} for a fill target (Silver, Pyke and Thomas 2017, decision rules for P1
   * and P2 with back-orders; from memory). Without any spread s is the mean, or the mean less what
   * the fill rate lets fall short.
   *
   * @param mean over the protection interval, 0 or more
   * @param sd over the protection interval, 0 or more
   * @param orderQuantity packs in one order; needed for a fill target
   * @throws BadInput if a fill target has no order quantity, or the answer is not a number
   */
  public static ReorderPoint normal(
      double mean, double sd, Target target, OptionalDouble orderQuantity) {
    Check.notNegative("meanDemand", mean);
    Check.notNegative("sdDemand", sd);
    boolean cycle = target.kind() == Target.Kind.CYCLE;
    double mayBeShort = cycle ? 0 : quantity(orderQuantity) * (1 - target.value());
    if (sd == 0) {
      double s = mean - mayBeShort;
      return new ReorderPoint(s, mean, 0, s < mean ? 1 : 0, mayBeShort);
    }
    double z =
        cycle
            ? UNIT.inverseCumulativeProbability(target.value())
            : NormalLoss.inverse(unitLoss(mayBeShort, sd));
    return new ReorderPoint(
        mean + z * sd, mean, sd, UNIT.survivalProbability(z), sd * NormalLoss.value(z));
  }

  private static double unitLoss(double mayBeShort, double sd) {
    double loss = mayBeShort / sd;
    if (!(loss > 0 && loss <= Double.MAX_VALUE)) {
      throw new BadInput(
          "orderQuantity",
          "The order quantity is out of all proportion to the spread of demand, " + sd + " packs.");
    }
    return loss;
  }

  private static double quantity(OptionalDouble orderQuantity) {
    return Check.positive(
        "orderQuantity",
        orderQuantity.orElseThrow(
            () ->
                new BadInput(
                    "orderQuantity",
                    "A fill target needs an order quantity, or the costs to find one.")));
  }
}
