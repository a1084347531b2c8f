package clinic.stimshelf.pads;

/**
 * Pads taken outside of programs.
 *
 * @param lotId the lot, or {@code null} for the first to expire of the type {@code code}
 * @param code the pad type, needed where no lot is named
 * @param packs 1 or more
 * @param note needed where the reason is {@link DrawerReason#OTHER}
 * @param patientId for whom, if it is to be kept; {@code null} otherwise
 */
public record DrawerTake(
    Long lotId,
    String code,
    Long locationId,
    int packs,
    DrawerReason reason,
    String note,
    Long patientId,
    String laterLotReason) {}
