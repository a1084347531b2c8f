package clinic.stimshelf.pads;

import java.util.Collection;

/**
 * What is in the cupboard and coming against the order level, as a bar; numbers are those of the
 * drawing.
 *
 * @param level where the mark of the order level stands
 * @param words the same as a sentence
 */
record StockBar(String have, String comeFrom, String come, String level, String words) {
  static final int WIDE = 230;

  /** One scale for all that stand on a page together. */
  static double scale(Collection<PadPosition> positions) {
    double most = 1;
    for (PadPosition one : positions) {
      most = Math.max(most, Math.max(one.usable() + one.onOrder(), one.reorderPoint()));
    }
    return (WIDE - 4) / most;
  }

  static StockBar of(PadPosition one, double scale) {
    double have = Math.max(0, one.usable()) * scale;
    return new StockBar(
        PadPicture.number(have),
        PadPicture.number(have),
        PadPicture.number(one.onOrder() * scale),
        PadPicture.number(one.reorderPoint() * scale + 1),
        one.usable()
            + " in the cupboard, "
            + one.onOrder()
            + " coming, order at "
            + one.reorderPoint()
            + " or below");
  }
}
