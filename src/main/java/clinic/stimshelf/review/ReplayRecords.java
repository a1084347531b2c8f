package clinic.stimshelf.review;

import clinic.stimshelf.calc.demand.Replay;
import clinic.stimshelf.pads.MovementReason;
import clinic.stimshelf.review.PastKnowledge.Delivery;
import clinic.stimshelf.review.PastKnowledge.Kind;
import clinic.stimshelf.review.PastKnowledge.Promise;
import clinic.stimshelf.review.PastKnowledge.Taking;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;

/** Reads what a location's ledger, orders and programs say of some days, for every pad type. */
@ApplicationScoped
class ReplayRecords {
  /** So far back of the first day rates and program starts are looked for. */
  private static final int RATES_BACK = 272;

  private static final int LEAD_TIMES_BACK = 731;
  private static final String STANDS =
      " and m.reason <> :reversal and not exists (select 1 from StockMovement r where"
          + " r.reversesId = m.id)";

  @Inject EntityManager em;

  /** What is known of one pad type. */
  static final class OfType {
    final List<Replay.Batch> opening = new ArrayList<>();
    final List<Taking> takings = new ArrayList<>();
    final List<Delivery> deliveries = new ArrayList<>();
    final List<Promise> promises = new ArrayList<>();

    /** What really came in the days, ordered or not. */
    final List<Replay.Arrival> arrivals = new ArrayList<>();

    final Map<LocalDate, Integer> asked = new HashMap<>();
    final Map<LocalDate, Integer> gone = new HashMap<>();
    final Map<LocalDate, Integer> ordered = new TreeMap<>();
  }

  /** First day on which packs left, or {@code null}, and the newest line of the ledger. */
  Object[] state(Long locationId) {
    return new Object[] {
      first(
          "select m.happenedAt from StockMovement m where m.locationId = :at and m.packs < 0 order"
              + " by m.happenedAt",
          locationId),
      first(
          "select m.id from StockMovement m where m.locationId = :at order by m.recordedAt desc,"
              + " m.id desc",
          locationId)
    };
  }

  /** The first row by an index, however long the ledger. */
  private Object first(String query, Long locationId) {
    return em.createQuery(query, Object.class)
        .setParameter("at", locationId)
        .setMaxResults(1)
        .getResultStream()
        .findFirst()
        .orElse(null);
  }

  Map<String, OfType> read(Long locationId, ZoneId zone, LocalDate from, LocalDate to) {
    Map<String, OfType> types = new TreeMap<>();
    opening(types, locationId, zone, from);
    movements(types, locationId, zone, from, to);
    deliveries(types, locationId, zone, from, to);
    orders(types, locationId, from, to);
    promises(types, locationId, zone, from, to);
    types.values().forEach(type -> type.promises.sort(Comparator.comparing(Promise::dueOn)));
    return types;
  }

  private void opening(Map<String, OfType> types, Long locationId, ZoneId zone, LocalDate from) {
    em.createQuery(
            "select t.code, g.expiresOn, sum(m.packs) from StockMovement m join PadLot g on"
                + " g.id = m.lotId join g.type t where m.locationId = :at and"
                + " m.happenedAt < :from"
                + STANDS
                + " group by t.code, g.id, g.expiresOn having sum(m.packs) > 0",
            Object[].class)
        .setParameter("at", locationId)
        .setParameter("from", start(from, zone))
        .setParameter("reversal", MovementReason.REVERSAL)
        .getResultList()
        .forEach(
            row ->
                of(types, row[0])
                    .opening
                    .add(new Replay.Batch((LocalDate) row[1], ((Number) row[2]).intValue())));
  }

  /** All but deliveries; expired packs that were thrown away expire in the replay as well. */
  private void movements(
      Map<String, OfType> types, Long locationId, ZoneId zone, LocalDate from, LocalDate to) {
    List<Object[]> rows =
        em.createQuery(
                "select t.code, m.reason, m.packs, m.happenedAt, l.programId, m.patientId,"
                    + " g.expiresOn from StockMovement m join PadLot g on g.id = m.lotId"
                    + " join g.type t left join Loan l on l.id = m.loanId where"
                    + " m.locationId = :at and m.happenedAt >= :from and m.happenedAt < :to and"
                    + " m.reason not in :others"
                    + STANDS
                    + " order by m.happenedAt, m.id",
                Object[].class)
            .setParameter("at", locationId)
            .setParameter("from", start(from.minusDays(RATES_BACK), zone))
            .setParameter("to", start(to.plusDays(1), zone))
            .setParameter("others", Set.of(MovementReason.DELIVERY, MovementReason.EXPIRED))
            .setParameter("reversal", MovementReason.REVERSAL)
            .getResultList();
    for (Object[] row : rows) {
      OfType type = of(types, row[0]);
      int packs = (Integer) row[2];
      LocalDate day = LocalDate.ofInstant((Instant) row[3], zone);
      Kind kind = kind((MovementReason) row[1]);
      boolean within = !day.isBefore(from);
      if (kind != null) {
        String program =
            kind != Kind.GIVEN ? null : row[4] != null ? "program " + row[4] : "patient " + row[5];
        type.takings.add(new Taking(day, kind, -packs, program));
        if (within) {
          type.asked.merge(day, -packs, Integer::sum);
        }
      } else if (within && packs < 0) {
        type.gone.merge(day, -packs, Integer::sum);
      } else if (within) {
        type.arrivals.add(
            new Replay.Arrival(day, new Replay.Batch((LocalDate) row[6], packs), null));
      }
    }
  }

  private static Kind kind(MovementReason reason) {
    return switch (reason) {
      case GIVEN -> Kind.GIVEN;
      case DRAWER_TAKE -> Kind.DRAWER;
      case APPOINTMENT -> Kind.APPOINTMENT;
      default -> null;
    };
  }

  private void deliveries(
      Map<String, OfType> types, Long locationId, ZoneId zone, LocalDate from, LocalDate to) {
    em.createQuery(
            "select t.code, m.packs, m.happenedAt, g.expiresOn, o.orderedOn from StockMovement m"
                + " join PadLot g on g.id = m.lotId join g.type t"
                + " left join SupplyOrderLine l on l.id = m.orderLineId"
                + " left join l.supplyOrder o where m.locationId = :at and"
                + " m.happenedAt >= :from and m.happenedAt < :to and m.reason = :delivery"
                + STANDS
                + " order by m.happenedAt, m.id",
            Object[].class)
        .setParameter("at", locationId)
        .setParameter("from", start(from.minusDays(LEAD_TIMES_BACK), zone))
        .setParameter("to", start(to.plusDays(1), zone))
        .setParameter("delivery", MovementReason.DELIVERY)
        .setParameter("reversal", MovementReason.REVERSAL)
        .getResultList()
        .forEach(
            row -> {
              OfType type = of(types, row[0]);
              LocalDate came = LocalDate.ofInstant((Instant) row[2], zone);
              LocalDate expires = (LocalDate) row[3];
              LocalDate ordered = (LocalDate) row[4];
              if (ordered != null) {
                Delivery delivery =
                    new Delivery(
                        ordered, came, (int) Math.max(0, ChronoUnit.DAYS.between(came, expires)));
                // Lots of one delivery came together: one observation.
                boolean again =
                    type.deliveries.stream()
                        .anyMatch(
                            known ->
                                known.orderedOn().equals(ordered) && known.cameOn().equals(came));
                if (!again) {
                  type.deliveries.add(delivery);
                }
              }
              if (!came.isBefore(from)) {
                type.arrivals.add(
                    new Replay.Arrival(
                        came,
                        new Replay.Batch(expires, (Integer) row[1]),
                        ordered == null ? came : ordered));
              }
            });
  }

  private void orders(Map<String, OfType> types, Long locationId, LocalDate from, LocalDate to) {
    em.createQuery(
            "select t.code, o.orderedOn, sum(l.packs - l.cancelled) from SupplyOrderLine l"
                + " join l.supplyOrder o join l.type t where o.locationId = :at and"
                + " o.orderedOn between :from and :to group by t.code, o.orderedOn"
                + " having sum(l.packs - l.cancelled) > 0",
            Object[].class)
        .setParameter("at", locationId)
        .setParameter("from", from)
        .setParameter("to", to)
        .getResultList()
        .forEach(
            row -> of(types, row[0]).ordered.put((LocalDate) row[1], ((Number) row[2]).intValue()));
  }

  /** Packs of each signed version, as long as it was in force. */
  private void promises(
      Map<String, OfType> types, Long locationId, ZoneId zone, LocalDate from, LocalDate to) {
    List<Object[]> rows =
        em.createQuery(
                "select k.padCode, p.id, v.number, v.signedAt, v.startsOn, v.lastSessionOn, k.onDay,"
                    + " k.packs, p.stoppedAt, (select min(w.signedAt) from ProgramVersion w where"
                    + " w.program = p and w.number > v.number and w.signedAt is not null)"
                    + " from PackRow k join k.version v join v.program p where"
                    + " p.locationId = :at and v.signedAt is not null and v.lastSessionOn >= :from"
                    + " and v.startsOn <= :to",
                Object[].class)
            .setParameter("at", locationId)
            .setParameter("from", from)
            .setParameter("to", to.plusDays(RATES_BACK))
            .getResultList();
    for (Object[] row : rows) {
      LocalDate until = (LocalDate) row[5];
      for (Object end : new Object[] {row[8], row[9]}) {
        if (end != null) {
          LocalDate ended = LocalDate.ofInstant((Instant) end, zone);
          until = ended.isBefore(until) ? ended : until;
        }
      }
      LocalDate due = (LocalDate) row[6];
      of(types, row[0])
          .promises
          .add(
              new Promise(
                  "program " + row[1],
                  LocalDate.ofInstant((Instant) row[3], zone),
                  until,
                  Objects.requireNonNullElse(due, (LocalDate) row[4]),
                  (Integer) row[7],
                  due != null));
    }
  }

  private static OfType of(Map<String, OfType> types, Object code) {
    return types.computeIfAbsent((String) code, c -> new OfType());
  }

  private static Instant start(LocalDate day, ZoneId zone) {
    return day.atStartOfDay(zone).toInstant();
  }
}
