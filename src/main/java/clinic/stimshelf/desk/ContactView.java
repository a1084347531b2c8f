package clinic.stimshelf.desk;

import java.time.Instant;
import java.time.LocalDate;

/**
 * An attempt to reach a patient, as people and scripts see it.
 *
 * @param loanId the loan it was about, {@code null} if none
 * @param promisedOn the day on which the unit was promised to come, {@code null} if none was named
 */
public record ContactView(
    String id,
    String patientId,
    String loanId,
    ContactOutcome outcome,
    LocalDate promisedOn,
    String note,
    Instant at,
    Instant recordedAt,
    String by) {}
