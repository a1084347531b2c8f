package clinic.stimshelf.people;

import java.time.LocalDate;

/**
 * A clearance as entered.
 *
 * @param question key of the hold or contraindication that is lifted
 * @param muscle a muscle of the region it is for; {@code null} for the whole person
 * @param side {@code null} for both
 * @param clearedBy name and part of who cleared it
 * @param validUntil last day; {@code null} without end
 * @param scope what exactly is cleared, in their words
 */
public record NewClearance(
    String ref,
    Long patientId,
    String question,
    String muscle,
    Side side,
    String clearedBy,
    LocalDate clearedOn,
    LocalDate validUntil,
    String scope) {}
