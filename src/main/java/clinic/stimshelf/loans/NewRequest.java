package clinic.stimshelf.loans;

import java.time.LocalDate;

/**
 * A wish for a unit.
 *
 * @param programId a signed program
 * @param neededFrom first day the unit is wanted; {@code null} for the program's first day
 * @param priority the therapist's: 1 most urgent, 2 usual, 3 can wait; {@code null} for 2
 * @param agreementVersion text that was prepared for signature, if it was
 */
public record NewRequest(
    Long programId, LocalDate neededFrom, Integer priority, String agreementVersion) {}
