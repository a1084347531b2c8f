package clinic.stimshelf.pads;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;

/**
 * An order to a supplier.
 *
 * @param orderedOn {@code null} for today
 * @param expectedOn {@code null} if the supplier named no day
 */
public record NewOrder(
    Long locationId,
    String supplier,
    LocalDate orderedOn,
    LocalDate expectedOn,
    String note,
    List<Line> lines) {

  /**
   * One pad type of it.
   *
   * @param packs 1 or more
   * @param price of a pack, {@code null} for the price of the type
   */
  public record Line(String code, int packs, BigDecimal price) {}
}
