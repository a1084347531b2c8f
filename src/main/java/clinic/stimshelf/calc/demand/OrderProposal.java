package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.Check;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * How much to order now.
 *
 * @param packs a multiple of the case; 0 where the position is above the reorder point
 * @param cutByShelfLife whether shelf life made it smaller than the economic quantity or the gap
 * @param minimumMayExpire whether the smallest order that the supplier takes is more than is used
 *     before it expires with the wished certainty: order it knowingly
 */
public record OrderProposal(long packs, boolean cutByShelfLife, boolean minimumMayExpire) {

  private static final OrderProposal NOTHING = new OrderProposal(0, false, false);

  /**
   * What the supplier delivers.
   *
   * @param packsPerCase 1 or more
   * @param minimumOrder packs, 0 or more
   */
  public record Supply(int packsPerCase, int minimumOrder) {

    public Supply {
      Check.within("packsPerCase", packsPerCase, 1, 1_000_000);
      Check.within("minimumOrder", minimumOrder, 0, 1_000_000);
    }

    long roundUp(double packs) {
      return (long) Math.ceil(packs / packsPerCase) * packsPerCase;
    }

    long smallest() {
      return roundUp(Math.max(1, minimumOrder));
    }
  }

  /**
   * How long what is ordered now keeps.
   *
   * @param demand from now until it expires
   * @param certainty with which the last pack must be used by then, strictly between 0 and 1
   */
  public record ShelfLife(Counts demand, double certainty) {

    public ShelfLife {
      Check.insideUnit("certainty", certainty);
    }

    /** The most packs, on top of the position, that are used in time; may be negative. */
    long most(long position) {
      // P(D >= n) >= certainty, n the position and the order together.
      long n = Levels.smallest(k -> demand.above(k) < certainty - Counts.TOLERANCE);
      return n - position;
    }
  }

  /**
   * An order once the position is at or below the reorder point: the economic quantity or what
   * lifts the position above the reorder point, whichever is more, rounded up to cases and to the
   * minimum, then cut to the most cases that are used before they expire.
   *
   * @param position on hand and usable, and on order, less what is owed
   * @param reorderPoint 0 or more
   * @param economicQuantity where the costs are known
   * @param shelfLife null where packs do not expire
   */
  public static OrderProposal of(
      long position,
      long reorderPoint,
      OptionalDouble economicQuantity,
      Supply supply,
      @Nullable ShelfLife shelfLife) {
    if (position > reorderPoint) {
      return NOTHING;
    }
    double wanted = Math.max(economicQuantity.orElse(0), (double) reorderPoint + 1 - position);
    long packs = Math.max(supply.roundUp(wanted), supply.smallest());
    if (shelfLife == null) {
      return new OrderProposal(packs, false, false);
    }
    long most =
        Math.floorDiv(shelfLife.most(position), supply.packsPerCase()) * supply.packsPerCase();
    if (most >= packs) {
      return new OrderProposal(packs, false, false);
    }
    return new OrderProposal(
        Math.max(most, supply.smallest()), packs > supply.smallest(), most < supply.smallest());
  }
}
