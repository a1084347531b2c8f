package clinic.stimshelf.loans;

import clinic.stimshelf.location.Locations;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** How long units were away: the one place where past loans are read for reckoning. */
@ApplicationScoped
public class TimesAway {
  /** Of so many of the newest loans habits are learnt, however long the history. */
  static final int NEWEST = 400;

  private static final String LOANS =
      "select l.id, l.unitId, k.code, l.checkedOutAt, l.dueOn, l.returnedAt from Loan l, Unit u"
          + " join u.kind k where u.id = l.unitId and l.locationId = :at and l.state <> :void";

  @Inject EntityManager em;
  @Inject Locations locations;

  /** Loans of a location that began on the day or later, by day; voided ones left out. */
  @Transactional
  public List<Away> since(Long locationId, LocalDate from) {
    ZoneId zone = locations.zone(locationId);
    Instant start = from.atStartOfDay(zone).toInstant();
    return read(
        em.createQuery(
                LOANS + " and l.checkedOutAt >= :from order by l.checkedOutAt, l.id",
                Object[].class)
            .setParameter("at", locationId)
            .setParameter("void", LoanState.VOID)
            .setParameter("from", start)
            .getResultList(),
        locationId,
        zone,
        start);
  }

  /** The newest loans of a location, the newest first: habits change. */
  @Transactional
  List<Away> newest(Long locationId) {
    ZoneId zone = locations.zone(locationId);
    List<Object[]> rows =
        em.createQuery(LOANS + " order by l.checkedOutAt desc, l.id desc", Object[].class)
            .setParameter("at", locationId)
            .setParameter("void", LoanState.VOID)
            .setMaxResults(NEWEST)
            .getResultList();
    return rows.isEmpty()
        ? List.of()
        : read(rows, locationId, zone, (Instant) rows.get(rows.size() - 1)[3]);
  }

  private List<Away> read(List<Object[]> rows, Long locationId, ZoneId zone, Instant oldest) {
    Map<Long, List<Away.Turn>> turns = new HashMap<>();
    for (Object[] row :
        em.createQuery(
                "select c.loanId, c.happenedAt, c.fromDue, c.kind from LoanChange c, Loan l where"
                    + " l.id = c.loanId and l.locationId = :at and l.checkedOutAt >= :oldest and"
                    + " c.kind in :kinds and c.fromDue is not null order by c.happenedAt, c.id",
                Object[].class)
            .setParameter("at", locationId)
            .setParameter("oldest", oldest)
            .setParameter("kinds", List.of(ChangeKind.EXTENSION, ChangeKind.DUE_MOVED))
            .getResultList()) {
      turns
          .computeIfAbsent((Long) row[0], none -> new ArrayList<>())
          .add(
              new Away.Turn(
                  LocalDate.ofInstant((Instant) row[1], zone),
                  (LocalDate) row[2],
                  row[3] == ChangeKind.EXTENSION));
    }
    return rows.stream()
        .map(
            row ->
                new Away(
                    (Long) row[0],
                    (Long) row[1],
                    (String) row[2],
                    LocalDate.ofInstant((Instant) row[3], zone),
                    (LocalDate) row[4],
                    row[5] == null ? null : LocalDate.ofInstant((Instant) row[5], zone),
                    turns.getOrDefault((Long) row[0], List.of())))
        .toList();
  }
}
