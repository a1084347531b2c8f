package clinic.stimshelf.pads;

import java.time.LocalDate;
import java.util.List;

/**
 * Packs that came from a supplier.
 *
 * @param orderId the order they belong to, or {@code null}
 * @param consigned whether they stay the supplier's until they are used
 */
public record NewDelivery(
    Long locationId, Long orderId, String note, boolean consigned, List<Line> lines) {

  /** Packs that are bought. */
  public NewDelivery(Long locationId, Long orderId, String note, List<Line> lines) {
    this(locationId, orderId, note, false, lines);
  }

  /**
   * Packs of one lot.
   *
   * @param lot the maker's lot number
   * @param udi the scanned code as it was read, or {@code null}
   */
  public record Line(String code, String lot, LocalDate expiresOn, int packs, String udi) {}
}
