package clinic.stimshelf.pads;

import java.time.LocalDate;

/**
 * A pad set in use, or one that was.
 *
 * @param padName the type's name
 * @param lot the maker's lot number, or {@code null}
 * @param lastUsableOn the last day on which it may be used, counted from the pouch's opening
 * @param uses sessions that were told of
 * @param expectedUses sessions nobody told of that probably took place
 * @param openingAssumed whether nobody told of the opening: it is taken to have followed the packs
 * @param plannedUses sessions it is planned to last
 * @param outcome how it ended, or {@code null} while in use
 * @param heldReason why it must not be used any more, or {@code null}
 */
public record PadSetView(
    Long id,
    Long patientId,
    Long programId,
    String code,
    String padName,
    String lot,
    int pads,
    String placement,
    LocalDate openedOn,
    LocalDate lastUsableOn,
    int uses,
    int expectedUses,
    boolean openingAssumed,
    int plannedUses,
    PadOutcome outcome,
    LocalDate closedOn,
    String discardReason,
    String heldReason) {

  public boolean open() {
    return outcome == null;
  }

  /** Sessions told of and expected. */
  public int allUses() {
    return uses + expectedUses;
  }

  /** "6 told, 3 expected", or only the number where everything was told. */
  public String usesWords() {
    return expectedUses == 0
        ? String.valueOf(uses)
        : allUses() + " (" + uses + " told, " + expectedUses + " expected)";
  }

  /** Whether it should be replaced before it is used on that day. */
  public boolean dueForChange(LocalDate day) {
    return open() && (allUses() >= plannedUses || day.isAfter(lastUsableOn));
  }
}
