package clinic.stimshelf.pads;

import java.math.BigDecimal;

/**
 * A pad type as entered. What is {@code null} takes what is proposed: 20 rated uses and 30 open
 * days (both common practice, no source), one set a pouch, 7 days until delivery, single packs, no
 * minimum, 730 days of shelf life (about two years by lot; common practice, no source).
 *
 * @param ref name of the row in a file, or {@code null}
 */
public record NewPadType(
    String ref,
    String code,
    String name,
    PadShape shape,
    Integer widthMm,
    Integer heightMm,
    String connector,
    Integer padsPerPack,
    Integer setsPerPouch,
    Integer ratedUses,
    Integer openDays,
    BigDecimal price,
    String supplier,
    Integer leadDays,
    Integer packsPerCase,
    Integer minimumOrder,
    BigDecimal orderCost,
    BigDecimal holdingCost,
    Integer shelfDays) {

  static final int RATED_USES = 20;
  static final int OPEN_DAYS = 30;
  static final int LEAD_DAYS = 7;
  static final int SHELF_DAYS = 730;

  /** The same with everything proposed where nothing was entered. */
  NewPadType filled() {
    boolean supply = shape == PadShape.SUPPLY;
    return new NewPadType(
        ref,
        code,
        name,
        shape == null ? PadShape.RECTANGLE : shape,
        supply ? Integer.valueOf(0) : widthMm,
        supply
            ? Integer.valueOf(0)
            : shape == PadShape.ROUND && heightMm == null ? widthMm : heightMm,
        supply && (connector == null || connector.isBlank()) ? "none" : connector,
        supply ? or(padsPerPack, 1) : padsPerPack,
        or(setsPerPouch, 1),
        or(ratedUses, RATED_USES),
        or(openDays, OPEN_DAYS),
        price == null ? BigDecimal.ZERO : price,
        supplier,
        or(leadDays, LEAD_DAYS),
        or(packsPerCase, 1),
        or(minimumOrder, 0),
        orderCost,
        holdingCost,
        or(shelfDays, SHELF_DAYS));
  }

  private static int or(Integer entered, int proposed) {
    return entered == null ? proposed : entered;
  }
}
