package clinic.stimshelf.loans;

import java.time.LocalDate;

/**
 * An open request, without the outlook that takes long to tell.
 *
 * @param unitId the unit set aside for it, {@code null} if none
 */
public record Waiting(
    Long id,
    Long programId,
    Long patientId,
    String chartNumber,
    Long locationId,
    LocalDate neededFrom,
    int channels,
    Long unitId,
    String unitTag) {}
