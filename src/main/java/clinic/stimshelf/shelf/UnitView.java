package clinic.stimshelf.shelf;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/**
 * A unit as the other rooms, pages and scripts see it.
 *
 * @param kind code of its kind
 * @param location code of its location
 * @param spot name of its storage spot, {@code null} if it has none
 * @param stateReason why it is out of service, missing or retired, else {@code null}
 * @param purpose home, clinic or both
 * @param testDue whether the safety test is overdue, or none is on record
 * @param charged whether its charge still counts
 * @param readyAt end of the contact time of a wipe that does not count yet, else {@code null}
 * @param use the use that runs, else {@code null}
 * @param reservedFor what it is reserved for, else {@code null}
 */
public record UnitView(
    Long id,
    String tag,
    String serial,
    String kind,
    String kindName,
    int channels,
    String connector,
    OutputScale output,
    boolean lendsOut,
    Long locationId,
    String location,
    Long spotId,
    String spot,
    UnitState state,
    Instant stateSince,
    String stateReason,
    String purpose,
    LocalDate nextTestOn,
    boolean testDue,
    Instant chargingSince,
    Instant chargedAt,
    boolean charged,
    Instant readyAt,
    boolean needsInspection,
    UnitUse use,
    UseKind reservedFor,
    Long reservedId,
    Integer useCounter,
    LocalDate acquiredOn,
    LocalDate retiredOn,
    String ownerWords,
    List<KitItemView> contents,
    int version) {

  /** Whether a loan of it should have ended by that time. */
  public boolean lateAt(Instant now) {
    return use != null
        && use.kind() == UseKind.LOAN
        && use.until() != null
        && now.isAfter(use.until());
  }

  public boolean charging() {
    return chargingSince != null;
  }
}
