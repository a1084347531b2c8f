package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.BadInput;
import java.util.function.LongPredicate;

/** Finds the first whole number from which a level is met. */
final class Levels {

  private static final long LARGEST = 1L << 60;

  private Levels() {}

  /**
   * The smallest k of 0 or more that is met, where meeting it is monotone.
   *
   * @throws BadInput if not even 2^60 packs meet it
   */
  static long smallest(LongPredicate met) {
    if (met.test(0)) {
      return 0;
    }
    long missed = 0;
    long reached = 1;
    while (!met.test(reached)) {
      if (reached >= LARGEST) {
        throw new BadInput(
            "target.value", "The level asks for more packs than can be counted; lower it.");
      }
      missed = reached;
      reached *= 2;
    }
    while (reached - missed > 1) {
      long middle = missed + (reached - missed) / 2;
      if (met.test(middle)) {
        reached = middle;
      } else {
        missed = middle;
      }
    }
    return reached;
  }
}
