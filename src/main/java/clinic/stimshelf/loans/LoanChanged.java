package clinic.stimshelf.loans;

/**
 * A loan began, ended, or its due day moved. Fired within the transaction of the change, so that
 * what the patient is told changes with it or not at all.
 */
public record LoanChanged(Long loanId, Long patientId) {}
