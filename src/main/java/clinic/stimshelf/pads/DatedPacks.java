package clinic.stimshelf.pads;

import java.time.LocalDate;

/**
 * Packs that are due to leave the cupboard on a known day.
 *
 * @param on when they are due to leave; a day in the past counts as today
 * @param packs 1 or more
 * @param chance that they are really drawn: 1 where it is certain, adherence for later packs of a
 *     program, one less the no-show rate for an appointment
 * @param label whose they are, as a manager reads it; it may hold a name
 * @param alreadyOwed whether they are counted as owed, and so taken off the position already
 */
public record DatedPacks(
    String padCode,
    LocalDate on,
    int packs,
    double chance,
    String label,
    boolean alreadyOwed,
    Kind kind) {

  /** What they are for. */
  public enum Kind {
    PROGRAM,
    APPOINTMENT,
    /** A program that is not signed yet, but whose surgery stands on the books. */
    SURGERY
  }

  /** Packs of a program that are drawn for certain. */
  public DatedPacks(String padCode, LocalDate on, int packs, String label, boolean alreadyOwed) {
    this(padCode, on, packs, 1, label, alreadyOwed, Kind.PROGRAM);
  }
}
