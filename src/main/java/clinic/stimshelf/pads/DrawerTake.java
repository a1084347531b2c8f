package clinic.stimshelf.pads;

/**
 * Pads taken outside of programs.
 *
 * @param lotId the lot, or {@code null} for the first to expire of the type {@code code}
 * @param code the pad type, needed where no lot is named
 * @param packs 1 or more
 * @param note needed where the reason is {@link DrawerReason#OTHER}
 * @param patientId for whom, if it is to be kept; {@code null} otherwise
 * @param drawerId the drawer by a treatment table they lay in; {@code null} for the cupboard
 */
public record DrawerTake(
    Long lotId,
    String code,
    Long locationId,
    int packs,
    DrawerReason reason,
    String note,
    Long patientId,
    String laterLotReason,
    Long drawerId) {

  /** Taken from the cupboard. */
  public DrawerTake(
      Long lotId,
      String code,
      Long locationId,
      int packs,
      DrawerReason reason,
      String note,
      Long patientId,
      String laterLotReason) {
    this(lotId, code, locationId, packs, reason, note, patientId, laterLotReason, null);
  }
}
