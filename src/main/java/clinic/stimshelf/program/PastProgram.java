package clinic.stimshelf.program;

import clinic.stimshelf.calc.days.DueDay;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;

/**
 * A program that was written before the clinic kept it here.
 *
 * @param template key, or {@code null}
 * @param weekdays named weekdays; empty where only their number is given
 * @param dueOn the day that was agreed; {@code null} for what follows from the program
 * @param therapistId who wrote it and, if it is signed, signed it
 * @param draftedAt when it was written; {@code null} for the time of the signature
 * @param signedAt when it was signed; {@code null} while it is a draft
 * @param firstSessionAt first supervised session, or {@code null}
 * @param settingUnitId unit whose setting was confirmed, or {@code null}
 * @param settingAt when that was; {@code null} for the time of the signature
 * @param stoppedAt when it ended before its time, or {@code null}
 * @param abandoned whether the patient had given it up
 */
public record PastProgram(
    String ref,
    Long patientId,
    Long locationId,
    Long therapistId,
    String template,
    DoseEntry dose,
    Set<DayOfWeek> weekdays,
    LocalDate startsOn,
    List<Placement> placements,
    List<PadLine> pads,
    DueDay.Kind dueKind,
    LocalDate dueOn,
    String setting,
    String cautions,
    String instructions,
    Instant draftedAt,
    Instant signedAt,
    Instant firstSessionAt,
    Long settingUnitId,
    String settingUnitTag,
    Instant settingAt,
    Instant stoppedAt,
    String stopReason,
    boolean abandoned) {}
