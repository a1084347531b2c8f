package clinic.stimshelf.pads;

import java.time.Instant;

/**
 * A line of the ledger.
 *
 * @param at when it happened
 * @param lot the maker's lot number
 * @param location code of the location
 * @param packs above zero where they came, below where they left
 * @param reverses the line whose mistake it undoes, or {@code null}
 * @param reversed whether another line undid this one
 */
public record MovementView(
    String id,
    Instant at,
    Instant recordedAt,
    String by,
    String code,
    String lot,
    String lotId,
    String location,
    int packs,
    MovementReason reason,
    DrawerReason drawerReason,
    String note,
    String laterLotReason,
    String loanId,
    String patientId,
    String reverses,
    boolean reversed,
    String lateReason) {

  /** Packs without their sign. */
  public int size() {
    return Math.abs(packs);
  }
}
