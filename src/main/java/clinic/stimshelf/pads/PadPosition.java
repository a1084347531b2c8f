package clinic.stimshelf.pads;

/**
 * What a location has of a pad type, what is to come, and when to order.
 *
 * @param onHand sealed packs in the cupboard, whatever their state
 * @param quarantined of these, packs of lots that are held back and not expired
 * @param expired of these, packs past their expiry
 * @param owed packs due to patients and not yet given
 * @param onOrder packs ordered and neither delivered nor cancelled
 * @param position onHand − quarantined − expired + onOrder − owed
 * @param committed mean packs still to leave for programs over lead time and review
 * @param reorderPoint order when the position is at or below it
 * @param orderQuantity packs to order now, 0 for none
 * @param coverDays days until the expected usable stock is below one pack; {@code null} if that is
 *     more than two years away or nothing is used
 */
public record PadPosition(
    String code,
    String location,
    String name,
    int onHand,
    int quarantined,
    int expired,
    int owed,
    int onOrder,
    int position,
    double committed,
    long reorderPoint,
    long orderQuantity,
    Integer coverDays) {

  /** Packs that may be given out today. */
  public int usable() {
    return onHand - quarantined - expired;
  }
}
