package clinic.stimshelf.pads;

import java.math.BigDecimal;

/**
 * A kind of pads.
 *
 * @param widthMm width in millimeters; the diameter where it is round
 * @param setsPerPouch pad sets that one opened pouch holds; they age together from its opening
 * @param ratedUses sessions a set is planned to last
 * @param openDays days an opened pouch may be used, its first day included
 * @param price of a pack
 * @param leadDays days from order to delivery that are expected as long as history is short
 * @param minimumOrder packs the supplier asks for at least; 0 for none
 * @param orderCost what placing an order costs, or {@code null}
 * @param holdingCost what keeping a pack for a year costs, or {@code null}
 * @param shelfDays days a fresh delivery is good for, as long as history is short
 */
public record PadTypeView(
    Long id,
    String code,
    String name,
    PadShape shape,
    int widthMm,
    int heightMm,
    String connector,
    int padsPerPack,
    int setsPerPouch,
    int ratedUses,
    int openDays,
    BigDecimal price,
    String supplier,
    int leadDays,
    int packsPerCase,
    int minimumOrder,
    BigDecimal orderCost,
    BigDecimal holdingCost,
    int shelfDays,
    boolean active,
    int version) {

  /** Whether it is a pad, that wears; a battery or a strap does not. */
  public boolean wears() {
    return shape != PadShape.SUPPLY;
  }

  /** Size, connector and packing in a line. */
  public String packing() {
    return wears()
        ? inches() + " (" + centimeters() + "), " + connector + ", " + padsPerPack + " a pack"
        : padsPerPack + " a pack";
  }

  /** "2 × 4 in". */
  public String inches() {
    return PadSize.inches(shape, widthMm, heightMm);
  }

  /** "5 × 10 cm". */
  public String centimeters() {
    return PadSize.centimeters(shape, widthMm, heightMm);
  }
}
