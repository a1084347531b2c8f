package clinic.stimshelf.pads;

/**
 * What somebody was given of a lot and has not brought back sealed.
 *
 * @param loanId the loan it went out with, or {@code null}
 */
public record GivenPacks(
    Long lotId, String code, String lot, Long patientId, Long loanId, int packs) {}
