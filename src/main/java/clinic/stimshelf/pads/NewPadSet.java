package clinic.stimshelf.pads;

import java.time.LocalDate;

/**
 * A pouch opened for a patient.
 *
 * @param code the pad type
 * @param lotId the lot, or {@code null} if nobody knows
 * @param pads how many pads are worn at once
 * @param placement where they lie, in words, or {@code null}
 */
public record NewPadSet(
    Long patientId,
    Long programId,
    Long locationId,
    String code,
    Long lotId,
    int pads,
    String placement,
    LocalDate openedOn) {}
