package clinic.stimshelf.pads;

import java.time.LocalDate;
import java.util.List;

/**
 * A lot and where its packs are.
 *
 * @param lot the maker's lot number
 * @param consigned whether it is the supplier's until it is used
 * @param heldAt sealed packs by location
 */
public record LotStock(
    String id,
    String code,
    String lot,
    LocalDate expiresOn,
    String udi,
    LotState state,
    String stateReason,
    boolean consigned,
    List<At> heldAt) {

  /** Packs in the cupboard of a location, which is named by its code. */
  public record At(String location, int packs) {}

  public int packs() {
    return heldAt.stream().mapToInt(At::packs).sum();
  }
}
