package clinic.stimshelf.shelf;

import java.time.Instant;
import java.time.LocalDate;

/** What the trail keeps of a unit before and after a change. */
record UnitFacts(
    UnitState state,
    String reason,
    Long locationId,
    String spot,
    Purpose purpose,
    UseKind reservedFor,
    Long reservedId,
    LocalDate nextTestOn,
    Instant chargedAt,
    Instant wipeCountsAt,
    String soiling,
    Instant heldUntil,
    boolean packSwollen) {

  static UnitFacts of(Unit unit) {
    return new UnitFacts(
        unit.state,
        unit.stateReason,
        unit.locationId,
        unit.spot == null ? null : unit.spot.name,
        unit.purpose,
        unit.reservedKind,
        unit.reservedId,
        unit.nextTestOn,
        unit.chargedAt,
        unit.wipeCountsAt,
        unit.soiling,
        unit.heldUntil,
        unit.packSwollen);
  }
}
