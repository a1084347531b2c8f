package clinic.stimshelf.review;

import clinic.stimshelf.loans.LoanState;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.review.UnitsView.Failing;
import clinic.stimshelf.review.UnitsView.Stretch;
import clinic.stimshelf.shelf.FaultRate;
import clinic.stimshelf.shelf.UseKind;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** How late units came in, and which of them failed most. */
@ApplicationScoped
class UnitsReview {
  private static final int SHOWN = 6;
  private static final int[] ENDS = {0, 3, 7, 14, Integer.MAX_VALUE};
  private static final List<String> WORDS =
      List.of(
          "in time", "1 to 3 days late", "4 to 7 days late", "8 to 14 days late", "later still");

  @Inject EntityManager em;
  @Inject Locations locations;
  @Inject SessionsAtHome atHome;
  @Inject Clock clock;

  @Transactional
  UnitsView of(Collection<Long> at, Period period) {
    Map<Long, ZoneId> zones =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, LocationView::zone));
    int[] counts = new int[ENDS.length];
    List<Long> late = new ArrayList<>();
    for (Object[] row : due(at, period)) {
      ZoneId zone = zones.get((Long) row[2]);
      LocalDate end =
          LocalDate.ofInstant(row[1] == null ? clock.instant() : (Instant) row[1], zone);
      long days = Math.max(0, ChronoUnit.DAYS.between((LocalDate) row[0], end));
      if (row[1] == null && days == 0) {
        continue;
      }
      int stretch = 0;
      while (days > ENDS[stretch]) {
        stretch++;
      }
      counts[stretch]++;
      if (days > 0) {
        late.add(days);
      }
    }
    int all = 0;
    int most = 1;
    for (int count : counts) {
      all += count;
      most = Math.max(most, count);
    }
    List<Stretch> stretches = new ArrayList<>();
    for (int i = 0; i < counts.length; i++) {
      stretches.add(new Stretch(WORDS.get(i), counts[i], 100 * counts[i] / most));
    }
    late.sort(Comparator.naturalOrder());
    return new UnitsView(
        all,
        late.size(),
        stretches,
        late.isEmpty() ? null : late.get((late.size() - 1) / 2).intValue(),
        failing(at, period).stream().limit(SHOWN).toList());
  }

  /** Loans due in the days that are over; one that is out and not due yet is neither. */
  private List<Object[]> due(Collection<Long> at, Period period) {
    return em.createQuery(
            "select l.dueOn, l.returnedAt, l.locationId from Loan l where l.locationId in :at and"
                + " l.dueOn between :from and :to and l.state <> :void",
            Object[].class)
        .setParameter("at", at)
        .setParameter("from", period.from())
        .setParameter("to", period.to())
        .setParameter("void", LoanState.VOID)
        .getResultList();
  }

  /**
   * The units with a fault, the most faults first, beside the sessions logged at home with their
   * loans and the treatments in the clinic.
   */
  @Transactional
  List<Failing> failing(Collection<Long> at, Period period) {
    Instant from = period.from().atStartOfDay(ZoneOffset.UTC).toInstant();
    Instant to = period.to().plusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant();
    List<Object[]> faults =
        em.createQuery(
                "select u.id, u.tag, k.name, count(f) from UnitFault f, Unit u join u.kind k where"
                    + " u.id = f.unitId and u.locationId in :at and f.noticedAt >= :from and"
                    + " f.noticedAt < :to group by u.id, u.tag, k.name",
                Object[].class)
            .setParameter("at", at)
            .setParameter("from", from)
            .setParameter("to", to)
            .getResultList();
    if (faults.isEmpty()) {
      return List.of();
    }
    List<Object> units = faults.stream().map(row -> row[0]).toList();
    Map<Long, Long> sessions = new HashMap<>();
    atHome.of(units, period).forEach((unit, done) -> sessions.merge(unit, done, Long::sum));
    em.createQuery(
            "select s.unitId, count(s) from UnitUseRow s where s.unitId in :units and"
                + " s.useKind = :treatment and s.voided = false and s.startsAt >= :from and"
                + " s.startsAt < :to group by s.unitId",
            Object[].class)
        .setParameter("units", units)
        .setParameter("treatment", UseKind.TREATMENT)
        .setParameter("from", from)
        .setParameter("to", to)
        .getResultList()
        .forEach(row -> sessions.merge((Long) row[0], (Long) row[1], Long::sum));
    return faults.stream()
        .map(
            row -> {
              FaultRate rate =
                  new FaultRate((Long) row[3], sessions.getOrDefault((Long) row[0], 0L));
              return new Failing(
                  (String) row[1],
                  (String) row[2],
                  rate.faults(),
                  rate.sessions(),
                  rate.sessions() == 0 ? "–" : rate.words(),
                  rate.few());
            })
        .sorted(Comparator.comparingLong(Failing::faults).reversed().thenComparing(Failing::tag))
        .toList();
  }
}
