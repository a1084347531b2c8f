package clinic.stimshelf.recall;

import com.fasterxml.jackson.annotation.JsonIgnore;
import java.time.LocalDate;

/**
 * One time during which somebody had what is recalled.
 *
 * @param how {@code loan}, {@code treatment}, {@code packs} or {@code set}
 * @param what the unit's tag, or what was given of the lot
 * @param loanId the loan it went with, or {@code null}
 * @param from the first day
 * @param to the last day, {@code null} while it goes on or nobody knows
 */
public record HeldIt(
    @JsonIgnore Long patientId,
    String how,
    String what,
    String loanId,
    LocalDate from,
    LocalDate to,
    StillHas still) {}
