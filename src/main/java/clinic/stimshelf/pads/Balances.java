package clinic.stimshelf.pads;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.FlushModeType;
import jakarta.persistence.LockModeType;
import jakarta.persistence.TypedQuery;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Packs by lot and location. A change is one conditional statement: the database holds the row from
 * then on, so two transactions can never take the same pack.
 */
@ApplicationScoped
class Balances {
  private static final String FACTS =
      "select new clinic.stimshelf.pads.LotFacts(l.id, l.number, l.expiresOn, l.udi, l.state,"
          + " l.stateReason, l.stateSince, l.type.id, l.type.code, l.consigned) from PadLot l ";

  @Inject EntityManager em;

  /**
   * Takes packs from the cupboard.
   *
   * @return false if there are not as many; then nothing is changed
   */
  boolean take(Long lotId, Long locationId, int packs) {
    return change(lotId, locationId, -packs) == 1;
  }

  /** Puts packs into the cupboard. */
  void put(Long lotId, Long locationId, int packs) {
    if (change(lotId, locationId, packs) == 1) {
      return;
    }
    // The first packs of this lot here: one at a time, or two would make the same row.
    em.flush();
    em.find(PadLot.class, lotId, LockModeType.PESSIMISTIC_WRITE);
    if (change(lotId, locationId, packs) == 0) {
      em.createNativeQuery(
              "insert into stock_balance (lot_id, location_id, packs) values (?1, ?2, ?3)")
          .setParameter(1, lotId)
          .setParameter(2, locationId)
          .setParameter(3, packs)
          .executeUpdate();
    }
  }

  private int change(Long lotId, Long locationId, int packs) {
    return em.createQuery(
            "update StockBalance set packs = packs + :packs where lotId = :lot and locationId = :at"
                + " and packs + :packs >= 0")
        .setParameter("packs", packs)
        .setParameter("lot", lotId)
        .setParameter("at", locationId)
        .setFlushMode(FlushModeType.COMMIT)
        .executeUpdate();
  }

  /** Holds every balance of the lot until the transaction ends: nothing of it leaves meanwhile. */
  void hold(Long lotId) {
    em.createQuery("update StockBalance set packs = packs where lotId = :lot")
        .setParameter("lot", lotId)
        .setFlushMode(FlushModeType.COMMIT)
        .executeUpdate();
  }

  /** Holds a pad type until the transaction ends, so that one lot is made once. */
  void holdType(Long padTypeId) {
    em.createQuery("update PadType set active = active where id = :type")
        .setParameter("type", padTypeId)
        .setFlushMode(FlushModeType.COMMIT)
        .executeUpdate();
  }

  int packs(Long lotId, Long locationId) {
    return em.createQuery(
            "select b.packs from StockBalance b where b.lotId = :lot and b.locationId = :at",
            Integer.class)
        .setParameter("lot", lotId)
        .setParameter("at", locationId)
        .setFlushMode(FlushModeType.COMMIT)
        .getResultStream()
        .findFirst()
        .orElse(0);
  }

  /** Packs of every lot of these types at the location; a lot without packs there is left out. */
  Map<Long, Integer> ofTypes(Collection<Long> padTypeIds, Long locationId) {
    Map<Long, Integer> packs = new HashMap<>();
    em.createQuery(
            "select b.lotId, b.packs from StockBalance b, PadLot l where l.id = b.lotId"
                + " and l.type.id in :types and b.locationId = :at and b.packs > 0",
            Object[].class)
        .setParameter("types", padTypeIds)
        .setParameter("at", locationId)
        .getResultList()
        .forEach(row -> packs.put((Long) row[0], (Integer) row[1]));
    return packs;
  }

  /** Lots by number, as they are now. */
  List<LotFacts> facts(Collection<Long> lotIds) {
    return em.createQuery(FACTS + "where l.id in :ids", LotFacts.class)
        .setParameter("ids", lotIds)
        .getResultList();
  }

  /** The lot of a type with this number, if there is one; nothing is written first. */
  List<LotFacts> byNumber(Long padTypeId, String number) {
    return em.createQuery(FACTS + "where l.type.id = :type and l.number = :number", LotFacts.class)
        .setParameter("type", padTypeId)
        .setParameter("number", number)
        .setFlushMode(FlushModeType.COMMIT)
        .getResultList();
  }

  /** Lots of a type with so many packs at the location, first expiry first; nothing is written. */
  List<LotFacts> heldQuietly(Long padTypeId, Long locationId, int packs) {
    return em.createQuery(
            FACTS
                + "where l.type.id = :type and exists (select 1 from StockBalance b where"
                + " b.lotId = l.id and b.locationId = :at and b.packs >= :packs)"
                + " order by l.expiresOn, l.number",
            LotFacts.class)
        .setParameter("type", padTypeId)
        .setParameter("at", locationId)
        .setParameter("packs", packs)
        .setFlushMode(FlushModeType.COMMIT)
        .getResultList();
  }

  /** Lots of these types of which the location has packs, first expiry first. */
  List<LotFacts> held(Collection<Long> padTypeIds, Long locationId) {
    TypedQuery<LotFacts> query =
        em.createQuery(
            FACTS
                + "where l.type.id in :types and exists (select 1 from StockBalance b where"
                + " b.lotId = l.id and b.locationId = :at and b.packs > 0)"
                + " order by l.expiresOn, l.number",
            LotFacts.class);
    return query.setParameter("types", padTypeIds).setParameter("at", locationId).getResultList();
  }
}
