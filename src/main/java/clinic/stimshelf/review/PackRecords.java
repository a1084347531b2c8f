package clinic.stimshelf.review;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.DrawerReason;
import clinic.stimshelf.pads.MovementReason;
import clinic.stimshelf.pads.PadOutcome;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.TypedQuery;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** What the ledger and the pad sets say of a period, summed up by the database. */
@ApplicationScoped
class PackRecords {
  private static final String STANDS =
      " and not exists (select 1 from StockMovement r where r.reversesId = m.id)";
  private static final Set<MovementReason> GIVEN =
      Set.of(MovementReason.GIVEN, MovementReason.RETURNED_SEALED);
  private static final Set<MovementReason> ASIDE =
      Set.of(
          MovementReason.DRAWER_TAKE,
          MovementReason.APPOINTMENT,
          MovementReason.EXPIRED,
          MovementReason.DISCARDED,
          MovementReason.COUNT_DIFFERENCE);

  @Inject EntityManager em;
  @Inject Locations locations;

  /**
   * Packs given to a patient, less those that came back sealed.
   *
   * @param programId {@code null} where they went without a loan
   */
  record Given(
      Long programId,
      Long patientId,
      String padCode,
      Long lotId,
      String lot,
      Long locationId,
      long packs) {}

  /** What was left in packs whose pads were lost or thrown away before their planned end. */
  record Wasted(
      Long programId, String padCode, Long lotId, String lot, Long locationId, BigDecimal packs) {}

  /**
   * Packs that no program used.
   *
   * @param ours whether we paid for them: consigned ones are the supplier's until they are used
   */
  record Aside(
      MovementReason reason,
      DrawerReason drawerReason,
      String padCode,
      Long lotId,
      long packs,
      boolean ours) {}

  /** Everything a program was given, ever. */
  record Whole(Long programId, String padCode, Long lotId, long packs) {}

  List<Given> given(Collection<Long> at, Period period) {
    return inEveryZone(
            at,
            period,
            "select l.programId, m.patientId, t.code, m.lotId, g.number, m.locationId,"
                + " sum(m.packs) from StockMovement m join PadLot g on g.id = m.lotId"
                + " join g.type t left join Loan l on l.id = m.loanId where m.locationId in :at"
                + " and m.happenedAt >= :from and m.happenedAt < :to and m.reason in :reasons"
                + STANDS
                + " group by l.programId, m.patientId, t.code, m.lotId, g.number, m.locationId",
            GIVEN)
        .stream()
        .map(
            row ->
                new Given(
                    (Long) row[0],
                    (Long) row[1],
                    (String) row[2],
                    (Long) row[3],
                    (String) row[4],
                    (Long) row[5],
                    -((Number) row[6]).longValue()))
        .toList();
  }

  /** Their sets that ended in the period. What a set had served already is not wasted. */
  List<Wasted> wasted(Collection<Long> at, Period period) {
    return em.createQuery(
            "select s.programId, t.code, g.id, g.number, s.locationId, t.padsPerPack, s.ratedUses,"
                + " sum(case when s.uses + s.expectedUses < s.ratedUses"
                + " then s.pads * (s.ratedUses - s.uses - s.expectedUses)"
                + " else 0 end) from PadSet s join s.type t left join s.lot g where"
                + " s.locationId in :at and s.closedOn between :from and :to and"
                + " s.outcome in :outcomes group by s.programId, t.code, g.id, g.number,"
                + " s.locationId, t.padsPerPack, s.ratedUses",
            Object[].class)
        .setParameter("at", at)
        .setParameter("from", period.from())
        .setParameter("to", period.to())
        .setParameter("outcomes", Set.of(PadOutcome.LOST, PadOutcome.DISCARDED))
        .getResultStream()
        .map(
            row ->
                new Wasted(
                    (Long) row[0],
                    (String) row[1],
                    (Long) row[2],
                    (String) row[3],
                    (Long) row[4],
                    new BigDecimal(row[7].toString())
                        .divide(
                            BigDecimal.valueOf(((Integer) row[5]).longValue() * (Integer) row[6]),
                            20,
                            RoundingMode.HALF_EVEN)))
        .toList();
  }

  List<Aside> aside(Collection<Long> at, Period period) {
    return inEveryZone(
            at,
            period,
            "select m.reason, m.drawerReason, t.code, m.lotId, sum(m.packs), g.consigned from"
                + " StockMovement m"
                + " join PadLot g on g.id = m.lotId join g.type t where m.locationId in :at and"
                + " m.happenedAt >= :from and m.happenedAt < :to and m.reason in :reasons"
                + STANDS
                + " group by m.reason, m.drawerReason, t.code, m.lotId, g.consigned",
            ASIDE)
        .stream()
        .map(
            row ->
                new Aside(
                    (MovementReason) row[0],
                    (DrawerReason) row[1],
                    (String) row[2],
                    (Long) row[3],
                    -((Number) row[4]).longValue(),
                    row[0] == MovementReason.DRAWER_TAKE || !(Boolean) row[5]))
        .toList();
  }

  /** What programs whose planned end lies near the period were given from first to last. */
  List<Whole> whole(Collection<Long> at, Period period) {
    return em.createQuery(
            "select l.programId, t.code, m.lotId, sum(m.packs) from StockMovement m"
                + " join PadLot g on g.id = m.lotId join g.type t join Loan l on l.id = m.loanId"
                + " where m.reason in :reasons"
                + STANDS
                + " and exists (select 1 from ProgramVersion v join v.program p where"
                + " p.id = l.programId and p.locationId in :at and v.number = p.signedNumber and"
                + " v.lastSessionOn between :from and :to)"
                + " group by l.programId, t.code, m.lotId",
            Object[].class)
        .setParameter("at", at)
        .setParameter("from", period.from())
        .setParameter("to", period.to())
        .setParameter("reasons", GIVEN)
        .getResultStream()
        .map(
            row ->
                new Whole(
                    (Long) row[0], (String) row[1], (Long) row[2], -((Number) row[3]).longValue()))
        .toList();
  }

  /** A day is a day of the location. */
  private List<Object[]> inEveryZone(
      Collection<Long> at, Period period, String query, Set<MovementReason> reasons) {
    Map<ZoneId, List<Long>> byZone =
        locations.all().stream()
            .filter(location -> at.contains(location.id()))
            .collect(
                Collectors.groupingBy(
                    LocationView::zone, Collectors.mapping(LocationView::id, Collectors.toList())));
    List<Object[]> rows = new ArrayList<>();
    byZone.forEach(
        (zone, ids) -> {
          Instant from = period.from().atStartOfDay(zone).toInstant();
          Instant to = period.to().plusDays(1).atStartOfDay(zone).toInstant();
          TypedQuery<Object[]> asked = em.createQuery(query, Object[].class);
          rows.addAll(
              asked
                  .setParameter("at", ids)
                  .setParameter("from", from)
                  .setParameter("to", to)
                  .setParameter("reasons", reasons)
                  .getResultList());
        });
    return rows;
  }
}
