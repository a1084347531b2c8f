package clinic.stimshelf.calc.consumption;

import clinic.stimshelf.calc.BadInput;
import java.math.BigDecimal;

/**
 * What one pad line, or any slice of it, took in a period.
 *
 * @param packs given out less those that came back sealed; negative where more came back
 * @param waste of these, packs whose pads were lost or thrown away before their end
 * @param worth packs that its sessions are worth at the planned uses: {@code S·m/U0} with S
 *     sessions, m pads a session over pads a pack, U0 planned uses
 * @param cost of the packs
 */
public record Use(BigDecimal packs, BigDecimal waste, BigDecimal worth, BigDecimal cost) {

  /** Nothing. */
  public static final Use NONE =
      new Use(BigDecimal.ZERO, BigDecimal.ZERO, BigDecimal.ZERO, BigDecimal.ZERO);

  /** Decimal places to which quotients are carried; a cent's fate is decided far before. */
  public static final int PLACES = 20;

  private static final int LARGEST = 30;

  public Use {
    for (BigDecimal amount : new BigDecimal[] {packs, waste, worth, cost}) {
      if (amount.precision() - amount.scale() > LARGEST || amount.scale() > 2 * PLACES) {
        throw new BadInput("use", amount + " is too large, or too finely divided, to be reckoned.");
      }
    }
  }

  /** What a plan foresees: the packs its sessions are worth, none wasted, at a price. */
  public static Use planned(BigDecimal worth, BigDecimal price) {
    return new Use(worth, BigDecimal.ZERO, worth, worth.multiply(price));
  }

  /** Both together. */
  public Use plus(Use other) {
    return new Use(
        packs.add(other.packs),
        waste.add(other.waste),
        worth.add(other.worth),
        cost.add(other.cost));
  }
}
