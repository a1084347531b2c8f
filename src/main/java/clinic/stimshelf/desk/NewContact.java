package clinic.stimshelf.desk;

import java.time.Instant;
import java.time.LocalDate;

/**
 * What somebody who called has to say.
 *
 * @param loanId the loan it was about; where it is {@code null}, the patient must be named
 * @param patientId may be {@code null} where the loan is named
 * @param happenedAt {@code null} for now
 */
public record NewContact(
    Long loanId,
    Long patientId,
    ContactOutcome outcome,
    LocalDate promisedOn,
    String note,
    Instant happenedAt,
    String lateReason) {}
