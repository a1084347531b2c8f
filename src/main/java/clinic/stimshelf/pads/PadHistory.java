package clinic.stimshelf.pads;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What the ledger says of the past, read for every type of a location at once. */
@ApplicationScoped
class PadHistory {
  static final int DAYS = OrderRule.RATE_DAYS;

  private static final int LEAST_DAYS = OrderRule.LEAST_RATE_DAYS;
  private static final int LEAD_TIME_YEARS = OrderRule.LEAD_TIME_YEARS;
  private static final String NOT_UNDONE =
      " and not exists (select 1 from StockMovement r where r.reversesId = m.id)";

  /** Locations, and days of each, whose past is kept in memory. */
  private static final int REMEMBERED = 200;

  @Inject EntityManager em;

  /** The ledger is only added to, so a past holds until a line is. */
  private final Map<Known, Whole> remembered =
      Collections.synchronizedMap(
          new LinkedHashMap<>(64, 0.75f, true) {
            private static final long serialVersionUID = 1L;

            @Override
            protected boolean removeEldestEntry(Map.Entry<Known, Whole> eldest) {
              return size() > REMEMBERED;
            }
          });

  /** What a past was read from: lines written since yesterday, and the last of them. */
  private record Known(
      Long locationId, LocalDate today, int firstDays, Long lines, Long lastLine) {}

  /**
   * All that is known of a location's past.
   *
   * @param days that the rates are counted over
   * @param leadDays days from order to each delivery
   * @param keptDays days that fresh deliveries kept
   */
  record Whole(
      int days,
      Map<Long, Past> pasts,
      Map<Long, List<Integer>> leadDays,
      Map<Long, Integer> keptDays) {}

  /** The past of a location, read once for a day and state of its ledger. */
  Whole whole(Long locationId, LocalDate today, ZoneId zone, int firstDays) {
    Object[] state =
        em.createQuery(
                "select count(m), max(m.id) from StockMovement m where m.locationId = :at and"
                    + " m.recordedAt >= :since",
                Object[].class)
            .setParameter("at", locationId)
            .setParameter("since", today.minusDays(1).atStartOfDay(zone).toInstant())
            .getSingleResult();
    Known key = new Known(locationId, today, firstDays, (Long) state[0], (Long) state[1]);
    Whole known = remembered.get(key);
    if (known == null) {
      int days = days(locationId, today, zone);
      known =
          new Whole(
              days,
              past(locationId, today, zone, days, firstDays),
              leadDays(locationId, today, zone),
              keptDays(locationId, today, zone));
      remembered.put(key, known);
    }
    return known;
  }

  /**
   * The past of one pad type.
   *
   * @param firstDays packs of each program that began, in its first days
   */
  record Past(
      List<Integer> drawerTakes,
      List<Integer> appointmentUses,
      List<Integer> firstDays,
      List<Integer> draws) {
    static Past empty() {
      return new Past(new ArrayList<>(), new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
    }
  }

  /** Days of history up to today, at most 26 weeks, at least four. */
  int days(Long locationId, LocalDate today, ZoneId zone) {
    Instant first =
        em.createQuery(
                "select min(m.happenedAt) from StockMovement m where m.locationId = :at and"
                    + " m.packs < 0",
                Instant.class)
            .setParameter("at", locationId)
            .getSingleResult();
    long days =
        first == null ? 0 : ChronoUnit.DAYS.between(LocalDate.ofInstant(first, zone), today);
    return (int) Math.max(LEAST_DAYS, Math.min(DAYS, days));
  }

  /**
   * What was taken in the days before today.
   *
   * @param firstDays how many days after its start a program's packs are looked at
   */
  Map<Long, Past> past(Long locationId, LocalDate today, ZoneId zone, int days, int firstDays) {
    LocalDate from = today.minusDays(days);
    // A program that drew packs up to three months before the window did not begin in it.
    List<Object[]> rows =
        em.createQuery(
                "select m.padTypeId, m.reason, -m.packs, m.happenedAt, m.loanId, m.patientId from"
                    + " StockMovement m where m.locationId = :at and m.happenedAt >= :from and"
                    + " m.happenedAt < :to and m.reason in :reasons"
                    + NOT_UNDONE
                    + " order by m.happenedAt, m.id",
                Object[].class)
            .setParameter("at", locationId)
            .setParameter("from", from.minusDays(90).atStartOfDay(zone).toInstant())
            .setParameter("to", today.plusDays(1).atStartOfDay(zone).toInstant())
            .setParameter(
                "reasons",
                List.of(
                    MovementReason.GIVEN, MovementReason.DRAWER_TAKE, MovementReason.APPOINTMENT))
            .getResultList();
    Map<Long, Past> pasts = new HashMap<>();
    Map<Start, Given> starts = new LinkedHashMap<>();
    for (Object[] row : rows) {
      Long type = (Long) row[0];
      int packs = (Integer) row[2];
      LocalDate day = LocalDate.ofInstant((Instant) row[3], zone);
      Past past = pasts.computeIfAbsent(type, t -> Past.empty());
      boolean within = !day.isBefore(from);
      if (within) {
        past.draws().add(packs);
      }
      switch ((MovementReason) row[1]) {
        case DRAWER_TAKE -> addIf(within, past.drawerTakes(), packs);
        case APPOINTMENT -> addIf(within, past.appointmentUses(), packs);
        default ->
            starts
                .computeIfAbsent(Start.of(type, (Long) row[4], (Long) row[5]), s -> new Given(day))
                .add(day, packs, firstDays);
      }
    }
    starts.forEach(
        (start, given) ->
            addIf(!given.began.isBefore(from), pasts.get(start.type()).firstDays(), given.packs));
    return pasts;
  }

  private static void addIf(boolean within, List<Integer> list, int packs) {
    if (within) {
      list.add(Math.min(packs, 1_000));
    }
  }

  /** A program as the ledger knows it: its loan, or its patient where packs went without one. */
  private record Start(Long type, Long loanId, Long patientId) {
    static Start of(Long type, Long loanId, Long patientId) {
      return new Start(type, loanId, loanId == null ? patientId : null);
    }
  }

  private static final class Given {
    private final LocalDate began;
    private int packs;

    private Given(LocalDate began) {
      this.began = began;
    }

    private void add(LocalDate day, int more, int firstDays) {
      if (day.isBefore(began.plusDays(firstDays))) {
        packs += more;
      }
    }
  }

  /** Days from order to each delivery of the last two years, by type. */
  Map<Long, List<Integer>> leadDays(Long locationId, LocalDate today, ZoneId zone) {
    List<Object[]> rows =
        em.createQuery(
                "select m.padTypeId, l.id, o.orderedOn, m.happenedAt from StockMovement m,"
                    + " SupplyOrderLine l join l.supplyOrder o where l.id = m.orderLineId and"
                    + " m.locationId = :at and m.reason = :delivery and m.happenedAt >= :from"
                    + NOT_UNDONE
                    + " order by m.happenedAt, m.id",
                Object[].class)
            .setParameter("at", locationId)
            .setParameter("delivery", MovementReason.DELIVERY)
            .setParameter("from", today.minusYears(LEAD_TIME_YEARS).atStartOfDay(zone).toInstant())
            .getResultList();
    // Lots of one part delivery came together: one observation.
    Map<Long, Map<String, Integer>> seen = new HashMap<>();
    for (Object[] row : rows) {
      LocalDate came = LocalDate.ofInstant((Instant) row[3], zone);
      int days = (int) Math.max(0, ChronoUnit.DAYS.between((LocalDate) row[2], came));
      seen.computeIfAbsent((Long) row[0], t -> new TreeMap<>()).put(row[1] + " " + came, days);
    }
    Map<Long, List<Integer>> leadDays = new HashMap<>();
    seen.forEach((type, days) -> leadDays.put(type, List.copyOf(days.values())));
    return leadDays;
  }

  /** Days that fresh deliveries kept, in the middle, by type; of the last two years. */
  private Map<Long, Integer> keptDays(Long locationId, LocalDate today, ZoneId zone) {
    Map<Long, List<Long>> kept = new HashMap<>();
    em.createQuery(
            "select m.padTypeId, l.expiresOn, m.happenedAt from StockMovement m, PadLot l where"
                + " l.id = m.lotId and m.locationId = :at and m.reason = :delivery and"
                + " m.happenedAt >= :from"
                + NOT_UNDONE,
            Object[].class)
        .setParameter("at", locationId)
        .setParameter("delivery", MovementReason.DELIVERY)
        .setParameter("from", today.minusYears(LEAD_TIME_YEARS).atStartOfDay(zone).toInstant())
        .getResultList()
        .forEach(
            row ->
                kept.computeIfAbsent((Long) row[0], t -> new ArrayList<>())
                    .add(
                        ChronoUnit.DAYS.between(
                            LocalDate.ofInstant((Instant) row[2], zone), (LocalDate) row[1])));
    Map<Long, Integer> middle = new HashMap<>();
    kept.forEach(
        (type, days) -> {
          List<Long> sorted = days.stream().sorted().toList();
          middle.put(type, Math.toIntExact(sorted.get((sorted.size() - 1) / 2)));
        });
    return middle;
  }

  /** What is on order, by type: the day it was ordered and is expected, and how much is open. */
  Map<Long, List<OpenOrder>> onOrder(Long locationId, Collection<Long> padTypeIds) {
    Map<Long, List<OpenOrder>> open = new HashMap<>();
    em.createQuery(
            "select l.type.id, o.orderedOn, o.expectedOn, l.packs - l.delivered - l.cancelled from"
                + " SupplyOrderLine l join l.supplyOrder o where o.locationId = :at and"
                + " o.state = :open and l.type.id in :types and"
                + " l.packs > l.delivered + l.cancelled order by l.id",
            Object[].class)
        .setParameter("at", locationId)
        .setParameter("open", OrderState.OPEN)
        .setParameter("types", padTypeIds)
        .getResultList()
        .forEach(
            row ->
                open.computeIfAbsent((Long) row[0], t -> new ArrayList<>())
                    .add(new OpenOrder((LocalDate) row[1], (LocalDate) row[2], (Integer) row[3])));
    return open;
  }

  /** What is still to come of one order. */
  record OpenOrder(LocalDate orderedOn, LocalDate expectedOn, int packs) {}
}
