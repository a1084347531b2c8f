package clinic.stimshelf.pads;

import java.time.LocalDate;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Everything the reckoning for one pad type at one location rests on. Equal facts give equal
 * answers.
 *
 * @param lots packs in the cupboard, first expiry first
 * @param coming packs on order by the day they are expected
 * @param dated packs due to leave, those already owed left out
 * @param historyDays days of the past that the rates are counted over
 * @param drawerTakes packs of each drawer take in these days
 * @param appointmentUses packs used in each appointment in these days
 * @param treatments booked in the clinic, and those held in these days
 * @param noShow share of booked treatments that patients miss
 * @param newStarts packs of each program that began in these days, from its first days
 * @param draws packs of everything that left in these days, taking by taking
 * @param pastLeadDays days that past deliveries took
 * @param keptDays days a fresh delivery keeps
 */
record ReorderFacts(
    String code,
    String location,
    LocalDate today,
    List<LotHeld> lots,
    int owed,
    List<Coming> coming,
    List<DatedPacks> dated,
    int historyDays,
    List<Integer> drawerTakes,
    List<Integer> appointmentUses,
    Treatments treatments,
    double noShow,
    List<Integer> newStarts,
    List<Integer> draws,
    List<Integer> pastLeadDays,
    int priorLeadDays,
    int keptDays,
    int reviewDays,
    double serviceLevel,
    double expiryCertainty,
    int packsPerCase,
    int minimumOrder,
    OptionalDouble orderCost,
    OptionalDouble holdingCost) {

  /** A past morning, of whose bookings nothing is known any more. */
  ReorderFacts(
      String code,
      String location,
      LocalDate today,
      List<LotHeld> lots,
      int owed,
      List<Coming> coming,
      List<DatedPacks> dated,
      int historyDays,
      List<Integer> drawerTakes,
      List<Integer> appointmentUses,
      List<Integer> newStarts,
      List<Integer> draws,
      List<Integer> pastLeadDays,
      int priorLeadDays,
      int keptDays,
      int reviewDays,
      double serviceLevel,
      double expiryCertainty,
      int packsPerCase,
      int minimumOrder,
      OptionalDouble orderCost,
      OptionalDouble holdingCost) {
    this(
        code,
        location,
        today,
        lots,
        owed,
        coming,
        dated,
        historyDays,
        drawerTakes,
        appointmentUses,
        Treatments.NONE,
        0,
        newStarts,
        draws,
        pastLeadDays,
        priorLeadDays,
        keptDays,
        reviewDays,
        serviceLevel,
        expiryCertainty,
        packsPerCase,
        minimumOrder,
        orderCost,
        holdingCost);
  }

  /** Packs of one lot. */
  record LotHeld(String number, LocalDate expiresOn, boolean heldBack, int packs) {}

  /** Packs that are expected on a day. */
  record Coming(LocalDate day, int packs) {}

  int onHand() {
    return lots.stream().mapToInt(LotHeld::packs).sum();
  }

  int expired() {
    return lots.stream().filter(this::gone).mapToInt(LotHeld::packs).sum();
  }

  int quarantined() {
    return lots.stream().filter(lot -> lot.heldBack() && !gone(lot)).mapToInt(LotHeld::packs).sum();
  }

  int onOrder() {
    return coming.stream().mapToInt(Coming::packs).sum();
  }

  int position() {
    return onHand() - quarantined() - expired() + onOrder() - owed;
  }

  List<LotHeld> usable() {
    return lots.stream().filter(lot -> !lot.heldBack() && !gone(lot)).toList();
  }

  private boolean gone(LotHeld lot) {
    return lot.expiresOn().isBefore(today);
  }
}
