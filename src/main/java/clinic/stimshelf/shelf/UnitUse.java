package clinic.stimshelf.shelf;

import java.time.Instant;

/**
 * One use of a unit.
 *
 * @param subjectId number of the loan or treatment
 * @param until when it is expected to end, {@code null} if nobody said
 * @param endedAt {@code null} while it runs
 */
public record UnitUse(
    Long id,
    Long unitId,
    UseKind kind,
    Long subjectId,
    Instant startsAt,
    Instant until,
    Instant endedAt) {

  public boolean running() {
    return endedAt == null;
  }

  static UnitUse of(UnitUseRow row) {
    return row == null
        ? null
        : new UnitUse(
            row.id,
            row.unitId,
            row.useKind,
            row.subjectId,
            row.startsAt,
            row.expectedEnd,
            row.endedAt);
  }
}
