package clinic.stimshelf.shelf;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

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
 * @param readyAt when a wipe that does not count yet will, after contact time and hold, else null
 * @param soiling what it came back with beyond ordinary use, until a wipe counts
 * @param heldUntil the end of a hold that still runs, else {@code null}
 * @param packSwollen whether its battery is swollen and nobody who may has judged it
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
    Set<Soiling> soiling,
    Instant heldUntil,
    boolean packSwollen,
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

  /** What it came back with, in words; empty if nothing. */
  public String soilingWords() {
    return soiling.stream().map(Soiling::words).collect(Collectors.joining(", "));
  }

  /** When it can be clean at the earliest, if it is wiped by that time. */
  public Instant cleanFrom(Instant wiped) {
    Instant clean = readyAt == null ? wiped : readyAt;
    return heldUntil != null && heldUntil.isAfter(clean) ? heldUntil : clean;
  }

  public boolean charging() {
    return chargingSince != null;
  }
}
