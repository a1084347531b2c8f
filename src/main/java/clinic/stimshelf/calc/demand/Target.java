package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.Check;

/**
 * The service that a reorder point must give.
 *
 * @param kind what is promised
 * @param value the level, strictly between 0 and 1
 */
public record Target(Kind kind, double value) {

  /** What is promised. */
  public enum Kind {
    /** The chance that a replenishment cycle ends without a stock-out. */
    CYCLE,
    /** The share of packs that is given out of the cupboard at once. */
    FILL
  }

  public Target {
    Check.insideUnit("target.value", value);
  }

  /** No stock-out in this share of cycles. */
  public static Target cycle(double value) {
    return new Target(Kind.CYCLE, value);
  }

  /** This share of packs out of the cupboard. */
  public static Target fill(double value) {
    return new Target(Kind.FILL, value);
  }
}
