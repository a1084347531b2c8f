package clinic.stimshelf.pads;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** What packs cost by the list, now and then, and what was really paid for those of a lot. */
@ApplicationScoped
public class PriceList {
  /** The first price known holds for all the time before. */
  private static final LocalDate EVER = LocalDate.EPOCH;

  @Inject EntityManager em;
  @Inject Clock clock;

  void begin(Long padTypeId, BigDecimal price) {
    keep(padTypeId, EVER, price);
  }

  /** A new price holds from today on. */
  void change(Long padTypeId, BigDecimal price) {
    keep(padTypeId, LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC), price);
  }

  private void keep(Long padTypeId, LocalDate from, BigDecimal price) {
    PadPrice row = em.find(PadPrice.class, new PadPriceId(padTypeId, from));
    if (row == null) {
      row = new PadPrice();
      row.padTypeId = padTypeId;
      row.fromDay = from;
      row.price = price;
      em.persist(row);
    } else {
      row.price = price;
    }
  }

  /** The price of a pack of each type as the list said on a day, by pad code. */
  @Transactional
  public Map<String, BigDecimal> on(LocalDate day) {
    Map<String, BigDecimal> prices = new HashMap<>();
    em.createQuery(
            "select t.code, p.price from PadPrice p, PadType t where t.id = p.padTypeId and"
                + " p.fromDay = (select max(q.fromDay) from PadPrice q where"
                + " q.padTypeId = p.padTypeId and q.fromDay <= :day)",
            Object[].class)
        .setParameter("day", day)
        .getResultList()
        .forEach(row -> prices.put((String) row[0], (BigDecimal) row[1]));
    return prices;
  }

  /**
   * What a pack of each lot cost on average, as its orders say. A lot that came without an order is
   * absent: nobody wrote down what it cost.
   */
  @Transactional
  public Map<Long, BigDecimal> paid(Collection<Long> lotIds) {
    Map<Long, BigDecimal> paid = new HashMap<>();
    if (lotIds.isEmpty()) {
      return paid;
    }
    List<Object[]> rows =
        em.createQuery(
                "select m.lotId, sum(m.packs * l.price), sum(m.packs) from StockMovement m,"
                    + " SupplyOrderLine l where l.id = m.orderLineId and m.reason = :delivery and"
                    + " m.lotId in :lots and not exists (select 1 from StockMovement r where"
                    + " r.reversesId = m.id) group by m.lotId",
                Object[].class)
            .setParameter("delivery", MovementReason.DELIVERY)
            .setParameter("lots", lotIds)
            .getResultList();
    for (Object[] row : rows) {
      BigDecimal packs = new BigDecimal(row[2].toString());
      paid.put(
          (Long) row[0],
          new BigDecimal(row[1].toString()).divide(packs, 12, RoundingMode.HALF_EVEN));
    }
    return paid;
  }
}
