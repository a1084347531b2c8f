package clinic.stimshelf.pads;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.DayHours;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.NewLocation;
import clinic.stimshelf.testing.Folk;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;

/** A cupboard of a test's own: its location, its pad types, its lots. */
@ApplicationScoped
class Cupboard {
  @Inject Locations locations;
  @Inject PadCatalog catalog;
  @Inject Supply supply;
  @Inject Balances balances;
  @Inject EntityManager em;
  @Inject Clock clock;
  @Inject Folk folk;

  Long location() {
    Map<DayOfWeek, List<DayHours>> hours = new EnumMap<>(DayOfWeek.class);
    for (DayOfWeek weekday : DayOfWeek.values()) {
      hours.put(weekday, List.of(new DayHours(LocalTime.of(8, 0), LocalTime.of(18, 0))));
    }
    return locations.add(
        new NewLocation(
            code(), "Harbor Lane", "America/New_York", null, null, null, null, hours, Map.of()));
  }

  /** A code nobody else has. */
  String code() {
    return "T" + UUID.randomUUID().toString().substring(0, 12);
  }

  PadTypeView type() {
    String code = code();
    catalog.add(type(code));
    return catalog.byCode(code);
  }

  NewPadType type(String code) {
    return type(null, code);
  }

  NewPadType type(String ref, String code) {
    return new NewPadType(
        ref,
        code,
        "2 by 4 " + code,
        PadShape.RECTANGLE,
        50,
        100,
        "snap",
        4,
        null,
        null,
        null,
        new BigDecimal("7.5000"),
        "Larch Supply",
        7,
        1,
        0,
        null,
        null,
        null);
  }

  /** Packs of a lot that expires so many days from today. */
  Long lot(PadTypeView type, Long location, String number, int expiresInDays, int packs) {
    return lot(type, location, number, today(location).plusDays(expiresInDays), packs);
  }

  Long lot(PadTypeView type, Long location, String number, LocalDate expiresOn, int packs) {
    supply.receive(
        new NewDelivery(
            location,
            null,
            null,
            List.of(new NewDelivery.Line(type.code(), number, expiresOn, packs, null))),
        now());
    return lotId(type, number);
  }

  @Transactional
  Long lotId(PadTypeView type, String number) {
    return balances.byNumber(type.id(), number).get(0).id();
  }

  Long patient(Long location) {
    return folk.patient(location);
  }

  LocalDate today(Long location) {
    return locations.today(location);
  }

  Happened now() {
    return Happened.at(clock.instant());
  }

  Happened daysAgo(int days, String lateReason) {
    return new Happened(clock.instant().minusSeconds(days * 86_400L), lateReason);
  }

  /** What the balance says. */
  @Transactional
  int packs(Long lot, Long location) {
    return balances.packs(lot, location);
  }

  /** What the ledger says. */
  @Transactional
  int ledger(Long lot, Long location) {
    Long sum =
        em.createQuery(
                "select sum(m.packs) from StockMovement m where m.lotId = :lot and m.locationId ="
                    + " :at",
                Long.class)
            .setParameter("lot", lot)
            .setParameter("at", location)
            .getSingleResult();
    return sum == null ? 0 : sum.intValue();
  }

  /** What the balances say of every lot of a type, by lot and location, nothing left out but 0. */
  @Transactional
  Map<List<Long>, Integer> balances(PadTypeView type) {
    return sums(
        "select b.lotId, b.locationId, b.packs from StockBalance b, PadLot l where l.id = b.lotId"
            + " and l.type.id = :type and b.packs <> 0",
        type);
  }

  /** The same from the ledger. */
  @Transactional
  Map<List<Long>, Integer> ledger(PadTypeView type) {
    return sums(
        "select m.lotId, m.locationId, sum(m.packs) from StockMovement m where m.padTypeId = :type"
            + " group by m.lotId, m.locationId having sum(m.packs) <> 0",
        type);
  }

  private Map<List<Long>, Integer> sums(String query, PadTypeView type) {
    return em.createQuery(query, Object[].class)
        .setParameter("type", type.id())
        .getResultStream()
        .collect(
            Collectors.toMap(
                row -> List.of((Long) row[0], (Long) row[1]), row -> ((Number) row[2]).intValue()));
  }

  /** The newest line of a lot. */
  @Transactional
  Long newest(Long lot) {
    return em.createQuery("select max(m.id) from StockMovement m where m.lotId = :lot", Long.class)
        .setParameter("lot", lot)
        .getSingleResult();
  }

  /** Lets time pass for a lot. */
  @Transactional
  void expire(Long lot, LocalDate on) {
    em.createQuery("update PadLot set expiresOn = :on where id = :lot")
        .setParameter("on", on)
        .setParameter("lot", lot)
        .executeUpdate();
  }
}
