package clinic.stimshelf.loans;

import clinic.stimshelf.program.SettingGaps;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/**
 * A loan as people and scripts see it.
 *
 * @param owed what either side still owes, and what was settled
 * @param remindersOn every day of the ladder, past and to come, ascending; up to its end
 * @param settingGap what is to be set on the unit that is out, or {@code null} where it holds the
 *     version in force
 * @param bringInOn a day booked for the safety test that falls inside the loan
 */
public record LoanView(
    String id,
    String unitTag,
    String patientId,
    String chartNumber,
    String programId,
    int programVersion,
    String location,
    Instant checkedOutAt,
    LocalDate dueOn,
    String dueKind,
    LocalDate bringInOn,
    Instant returnedAt,
    String returnedTo,
    LoanState state,
    List<OwedView> owed,
    List<PartView> parts,
    List<ChangeView> changes,
    List<LocalDate> remindersOn,
    SettingGaps.Gap settingGap,
    int version) {

  /** A part of the kit as it went out, and how it came back. */
  public record PartView(
      String id, String words, boolean essential, boolean wentAlong, CameBack cameBack) {}

  /** A turn the loan took. */
  public record ChangeView(
      ChangeKind kind,
      Instant at,
      Instant recordedAt,
      String by,
      String fromUnit,
      String toUnit,
      LocalDate fromDue,
      LocalDate toDue,
      String reason) {}
}
