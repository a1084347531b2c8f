package clinic.stimshelf.review;

import clinic.stimshelf.loans.LoanState;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.program.Outcome;
import clinic.stimshelf.shelf.UseKind;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * Sessions done at home with each unit, by who had it on the day: after a swap the rest of a loan's
 * sessions are the other unit's. The day of a swap counts with the unit that came.
 */
@ApplicationScoped
class SessionsAtHome {
  @Inject EntityManager em;
  @Inject Locations locations;

  private record Use(Long unitId, LocalDate from, LocalDate to) {
    boolean holds(LocalDate day) {
      return !day.isBefore(from) && (to == null || !day.isAfter(to));
    }
  }

  /** By unit; one without a session is left out. */
  Map<Long, Long> of(Collection<?> units, Period period) {
    Map<Long, List<Use>> uses = uses(units);
    Map<Long, Long> sessions = new HashMap<>();
    if (uses.isEmpty()) {
      return sessions;
    }
    em.createQuery(
            "select s.programId, s.onDay, count(s) from SessionLog s where s.programId in :programs"
                + " and s.standingNth is not null and s.outcome <> :not"
                + " and s.onDay between :from and :to group by s.programId, s.onDay",
            Object[].class)
        .setParameter("programs", uses.keySet())
        .setParameter("not", Outcome.NOT)
        .setParameter("from", period.from())
        .setParameter("to", period.to())
        .getResultList()
        .forEach(
            row ->
                uses.get((Long) row[0]).stream()
                    .filter(use -> use.holds((LocalDate) row[1]))
                    .reduce((first, later) -> later)
                    .ifPresent(use -> sessions.merge(use.unitId(), (Long) row[2], Long::sum)));
    return sessions;
  }

  /** Uses of every loan in which one of the units was, by program, the earliest first. */
  private Map<Long, List<Use>> uses(Collection<?> units) {
    Map<Long, ZoneId> zones =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, LocationView::zone));
    return em
        .createQuery(
            "select l.programId, u.unitId, u.startsAt, u.endedAt, l.locationId"
                + " from UnitUseRow u, Loan l where u.useKind = :loan and u.subjectId = l.id"
                + " and u.voided = false and l.state <> :void and l.id in (select o.subjectId from"
                + " UnitUseRow o where o.useKind = :loan and o.voided = false and o.unitId in"
                + " :units) order by u.startsAt, u.id",
            Object[].class)
        .setParameter("loan", UseKind.LOAN)
        .setParameter("void", LoanState.VOID)
        .setParameter("units", units)
        .getResultList()
        .stream()
        .collect(
            Collectors.groupingBy(
                row -> (Long) row[0],
                Collectors.mapping(
                    row -> {
                      ZoneId zone = zones.get((Long) row[4]);
                      return new Use(
                          (Long) row[1],
                          LocalDate.ofInstant((Instant) row[2], zone),
                          row[3] == null ? null : LocalDate.ofInstant((Instant) row[3], zone));
                    },
                    Collectors.toList())));
  }
}
