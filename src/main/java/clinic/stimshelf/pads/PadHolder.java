package clinic.stimshelf.pads;

import java.time.LocalDate;

/**
 * Somebody who has pads of a lot.
 *
 * @param with the loan they went out with, in words of the loans' room, or {@code null}
 * @param packs sealed or opened packs given and not brought back
 * @param openSets pad sets of the lot in use
 * @param lastGivenOn the last day packs of it were given, or {@code null}
 */
public record PadHolder(
    Long patientId, Long loanId, String with, int packs, int openSets, LocalDate lastGivenOn) {}
