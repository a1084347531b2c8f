package clinic.stimshelf.pads;

import java.time.LocalDate;

/**
 * Packs of one lot.
 *
 * @param packs 1 or more
 * @param laterLotReason why a lot is taken although an earlier one would do, or {@code null}
 * @param neededOn the day up to which the packs must not have expired, or {@code null} for today
 */
public record PackLine(Long lotId, int packs, String laterLotReason, LocalDate neededOn) {

  public PackLine(Long lotId, int packs, String laterLotReason) {
    this(lotId, packs, laterLotReason, null);
  }
}
