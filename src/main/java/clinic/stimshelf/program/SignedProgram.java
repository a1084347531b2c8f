package clinic.stimshelf.program;

import clinic.stimshelf.calc.days.DueDay;
import java.time.LocalDate;
import java.util.List;

/**
 * The version of a program that is in force, as lending needs it.
 *
 * @param version its number
 * @param muscleWords what is treated, for people: "quadriceps, left"
 * @param channels the unit must have, over all placements
 * @param dueOn an open day of the location
 * @param sessionsLost sessions planned after the due day
 * @param packsNowTotal packs that leave with the unit, over all pad types
 * @param firstSessionDone whether a first supervised session is on record
 * @param settingConfirmed whether some unit was confirmed to hold this version's setting
 * @param padChanges every day on which some pad set is replaced
 * @param settingText the unit's own stored mode, as the therapist named it
 */
public record SignedProgram(
    Long programId,
    int version,
    ProgramState state,
    Long patientId,
    Long locationId,
    Long therapistId,
    String muscleWords,
    List<Placement> placements,
    int channels,
    List<PadLine> pads,
    LocalDate startsOn,
    LocalDate lastSessionOn,
    LocalDate dueOn,
    DueDay.Kind dueKind,
    int sessionsLost,
    int packsNowTotal,
    List<PacksNow> packsNow,
    List<PacksLater> packsLater,
    boolean firstSessionDone,
    boolean settingConfirmed,
    String settingText,
    Long screeningId,
    List<LocalDate> padChanges) {

  /** The kind of due day as scripts spell it. */
  public String dueWord() {
    return DueWords.word(dueKind);
  }
}
