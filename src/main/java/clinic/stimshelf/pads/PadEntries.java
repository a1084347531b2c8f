package clinic.stimshelf.pads;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.FlushModeType;
import jakarta.persistence.TypedQuery;
import jakarta.transaction.Transactional;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Takes the past of the cupboard out of files. What is entered here has happened: it is held
 * against the shape of the row and against the balance, not against today.
 */
@ApplicationScoped
public class PadEntries {
  private static final Set<MovementReason> COMING =
      EnumSet.of(MovementReason.OPENING, MovementReason.DELIVERY, MovementReason.RETURNED_SEALED);
  private static final Set<MovementReason> GOING =
      EnumSet.of(
          MovementReason.GIVEN,
          MovementReason.DRAWER_TAKE,
          MovementReason.APPOINTMENT,
          MovementReason.EXPIRED,
          MovementReason.DISCARDED);

  @Inject PadLots lots;
  @Inject Ledger ledger;
  @Inject Balances balances;
  @Inject Locations locations;
  @Inject PadTypeRows types;
  @Inject SupplyOrderRows orders;
  @Inject Trail trail;
  @Inject Clock clock;
  @Inject EntityManager em;

  /**
   * Takes a lot from a file, with its state.
   *
   * @param ref name of the row; a known one changes nothing
   * @param heldBack why it is quarantined, or {@code null} if it is not
   * @param consigned whether it is the supplier's until it is used
   * @return the lot's number
   */
  @Transactional
  public Long enterLot(
      String ref,
      String code,
      String number,
      LocalDate expiresOn,
      String udi,
      String heldBack,
      boolean consigned) {
    if (ref != null) {
      List<Long> known =
          quiet("select l.id from PadLot l where l.ref = :ref", Long.class)
              .setParameter("ref", ref)
              .getResultList();
      if (!known.isEmpty()) {
        return known.get(0);
      }
    }
    Refusals refusals = new Refusals();
    PadType type = type(code, refusals);
    if (PadStock.blank(number) || number.strip().length() > 60) {
      refusals.add("lot", "A lot number has 1 to 60 characters.");
    }
    if (expiresOn == null) {
      refusals.add("expiresOn", "The expiry is missing.");
    }
    refusals.throwIfAny();
    PadLot lot = lots.findOrMake(type, number, expiresOn, PadStock.text(udi));
    lot.ref = ref;
    lot.consigned = lot.consigned || consigned;
    if (!PadStock.blank(heldBack)) {
      lot.state = LotState.QUARANTINED;
      lot.stateReason = heldBack.strip();
      lot.stateSince = clock.instant();
    }
    trail.record(
        Subject.of("pad-lot", lot.id),
        "imported",
        Happened.at(clock.instant()),
        null,
        Map.of("code", code, "lot", lot.number, "expiresOn", expiresOn, "consigned", consigned));
    return lot.id;
  }

  /**
   * Takes a line of the ledger from a file: opening stock, a delivery, packs given, a drawer take.
   *
   * @return its number; a known {@code ref} changes nothing and answers the number it has
   * @throws Refusal with everything that stands against the row
   */
  @Transactional
  public Long enterPacks(PastPacks past) {
    return enterPacks(past, null);
  }

  /**
   * The same with the price that was paid for a pack.
   *
   * @param price {@code null} if nobody knows: then the list price stands with the order
   */
  @Transactional
  public Long enterPacks(PastPacks past, BigDecimal price) {
    if (past.ref() != null) {
      List<Long> known =
          quiet("select m.id from StockMovement m where m.ref = :ref", Long.class)
              .setParameter("ref", past.ref())
              .getResultList();
      if (!known.isEmpty()) {
        return known.get(0);
      }
    }
    Refusals refusals = new Refusals();
    PadType type = type(past.code(), refusals);
    check(past, refusals);
    if (price != null && past.orderedOn() == null) {
      refusals.add(
          "orderedOn",
          "A price is kept with its order.",
          "Say on which day the packs were ordered.");
    }
    refusals.throwIfAny();
    LotFacts lot = lot(past, type);
    StockMovement line =
        PadStock.movement(
            lot, past.locationId(), COMING.contains(past.reason()) ? past.packs() : -past.packs());
    line.ref = past.ref();
    line.reason = past.reason();
    line.drawerReason = past.drawerReason();
    line.note = PadStock.text(past.note());
    line.loanId = past.loanId();
    line.patientId = past.patientId();
    if (past.orderedOn() != null) {
      line.orderLineId = order(past, type, price).id;
    }
    return ledger.enter(line, lot.number(), Happened.at(past.at())).id;
  }

  private void check(PastPacks past, Refusals refusals) {
    boolean coming = COMING.contains(past.reason());
    if (!coming && !GOING.contains(past.reason())) {
      refusals.add("reason", "A file may not hold “" + word(past.reason()) + "” rows.");
    }
    if (past.packs() < 1 || past.packs() > 100_000) {
      refusals.add(
          "packs", "Packs must be a whole number from 1 to 100000, not " + past.packs() + ".");
    }
    if (past.at() == null) {
      refusals.add("happenedAt", "The time is missing.");
    } else if (past.at().isAfter(clock.instant())) {
      refusals.add("happenedAt", "The time lies in the future.");
    }
    if (coming && PadStock.blank(past.lot())) {
      refusals.add("lot", "The lot number is missing.");
    }
    if (past.reason() == MovementReason.DRAWER_TAKE && past.drawerReason() == null) {
      refusals.add("drawerReason", "Say what the pads were taken for.");
    }
    if (past.reason() == MovementReason.GIVEN && past.patientId() == null) {
      refusals.add("patient", "Say to whom the packs were given.");
    }
    if (past.orderedOn() != null
        && past.at() != null
        && past.orderedOn().isAfter(LocalDate.ofInstant(past.at(), ZoneOffset.MAX))) {
      refusals.add("orderedOn", "It cannot have come before it was ordered.");
    }
  }

  private LotFacts lot(PastPacks past, PadType type) {
    if (PadStock.blank(past.lot())) {
      ZoneId zone = locations.zone(past.locationId());
      LocalDate day = LocalDate.ofInstant(past.at(), zone);
      return balances.heldQuietly(type.id, past.locationId(), past.packs()).stream()
          .filter(lot -> !lot.expiresOn().isBefore(day))
          .findFirst()
          .orElseThrow(
              () ->
                  new Refusal(
                      "packs",
                      "No lot of “" + type.code + "” has " + past.packs() + " packs here.",
                      "Name the lot, or enter the delivery before."));
    }
    List<LotFacts> known = balances.byNumber(type.id, past.lot().strip());
    if (!known.isEmpty()
        && (past.expiresOn() == null || known.get(0).expiresOn().equals(past.expiresOn()))) {
      return known.get(0);
    }
    if (past.expiresOn() == null) {
      throw new Refusal(
          "lot",
          "“" + type.code + "” has no lot “" + past.lot() + "”.",
          "Enter the lot first, or give its expiry.");
    }
    PadLot made = lots.findOrMake(type, past.lot(), past.expiresOn(), PadStock.text(past.udi()));
    return balances.facts(List.of(made.id)).get(0);
  }

  private SupplyOrderLine order(PastPacks past, PadType type, BigDecimal price) {
    SupplyOrder order = new SupplyOrder();
    order.locationId = past.locationId();
    order.supplier = type.supplier;
    order.orderedOn = past.orderedOn();
    order.state = OrderState.DELIVERED;
    order.orderedBy = "imported";
    SupplyOrderLine line = new SupplyOrderLine();
    line.supplyOrder = order;
    line.type = type;
    line.packs = past.packs();
    line.delivered = past.packs();
    line.price = price == null ? type.price : price;
    order.lines.add(line);
    orders.persist(order);
    return line;
  }

  private PadType type(String code, Refusals refusals) {
    List<PadType> found =
        quiet("select t from PadType t where t.code = :code", PadType.class)
            .setParameter("code", code)
            .getResultList();
    if (found.isEmpty()) {
      refusals.add("code", "There is no pad type “" + code + "”.");
      return null;
    }
    return found.get(0);
  }

  /** A look-up that does not write first: in a long file that would look through every row. */
  private <T> TypedQuery<T> quiet(String query, Class<T> type) {
    return em.createQuery(query, type).setFlushMode(FlushModeType.COMMIT);
  }

  private static String word(MovementReason reason) {
    return reason == null ? "nothing" : reason.word();
  }
}
