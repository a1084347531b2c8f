package clinic.stimshelf.review;

import clinic.stimshelf.calc.pool.LendingPool;
import clinic.stimshelf.loans.Away;
import clinic.stimshelf.loans.LoanState;
import clinic.stimshelf.loans.PastLending;
import clinic.stimshelf.loans.PastPromises;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.people.ReachBy;
import clinic.stimshelf.review.PoolView.Channel;
import clinic.stimshelf.review.PoolView.Month;
import clinic.stimshelf.review.PoolView.OfKind;
import clinic.stimshelf.shelf.KindView;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.ShelfKeeping;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Do we own enough units, how hard are they used, and what becomes of what we promise? */
@ApplicationScoped
class Pool {
  static final double TARGET = 0.05;
  private static final int MONTHS = 12;

  @Inject PastLending lending;
  @Inject PastPromises promises;
  @Inject UnitsReview units;
  @Inject Shelf shelf;
  @Inject ShelfKeeping keeping;
  @Inject Locations locations;
  @Inject EntityManager em;

  /**
   * Everything for the page.
   *
   * @param target share of requests that may be turned away, above 0, at most 1
   */
  @Transactional
  PoolView of(Long locationId, double target) {
    LocalDate today = locations.today(locationId);
    Period year = new Period(today.minusYears(1).plusDays(1), today);
    List<UnitView> fleet = shelf.fleet(List.of(locationId));
    Map<String, BigDecimal> prices = new HashMap<>();
    for (KindView kind : keeping.kinds()) {
      prices.put(kind.code(), kind.price());
    }
    return new PoolView(
        locations.byId(locationId).name(),
        today,
        target,
        lending.of(locationId).stream()
            .map(
                kind ->
                    ofKind(
                        kind,
                        turnaround(locationId),
                        target,
                        prices.get(kind.kind()),
                        months(kind, fleet, today)))
            .toList(),
        channels(locationId, year, today),
        units.failing(List.of(locationId), year),
        promises.of(locationId));
  }

  /** The figures of each kind alone. */
  @Transactional
  List<OfKind> figures(Long locationId) {
    return lending.of(locationId).stream()
        .map(kind -> ofKind(kind, turnaround(locationId), TARGET, null, List.of()))
        .toList();
  }

  private double turnaround(Long locationId) {
    return locations.settings(locationId).number(Setting.TURNAROUND_DAYS);
  }

  private static OfKind ofKind(
      PastLending.OfKind kind,
      double turnaround,
      double target,
      BigDecimal price,
      List<Month> months) {
    return new OfKind(
        kind,
        turnaround,
        price,
        pool(kind, turnaround, kind.units(), target),
        pool(kind, turnaround, kind.units() + 1, target),
        months);
  }

  private static LendingPool pool(
      PastLending.OfKind kind, double turnaround, int units, double target) {
    return LendingPool.of(kind.requestsPerWeek(), kind.meanDaysAway(), turnaround, units, target);
  }

  private static List<Month> months(
      PastLending.OfKind kind, List<UnitView> fleet, LocalDate today) {
    List<Month> months = new ArrayList<>();
    LocalDate tomorrow = today.plusDays(1);
    for (int back = MONTHS - 1; back >= 0; back--) {
      YearMonth month = YearMonth.from(today).minusMonths(back);
      LocalDate from = month.atDay(1);
      LocalDate to = month.atEndOfMonth().plusDays(1);
      LocalDate until = to.isAfter(tomorrow) ? tomorrow : to;
      int begun = 0;
      long awayDays = 0;
      for (Away loan : kind.loans()) {
        begun += !loan.out().isBefore(from) && loan.out().isBefore(until) ? 1 : 0;
        LocalDate left = loan.out().isBefore(from) ? from : loan.out();
        LocalDate came = loan.back() == null || loan.back().isAfter(until) ? until : loan.back();
        awayDays += Math.max(0, ChronoUnit.DAYS.between(left, came));
      }
      int days = (int) ChronoUnit.DAYS.between(from, until);
      months.add(
          new Month(month, days, begun, awayDays / (double) days, owned(kind, fleet, until)));
    }
    return months;
  }

  /** Units of the kind that were there before a day; of one without dates it is taken so. */
  private static int owned(PastLending.OfKind kind, List<UnitView> fleet, LocalDate day) {
    return (int)
        fleet.stream()
            .filter(unit -> unit.kind().equals(kind.kind()) && unit.lendsOut())
            .filter(unit -> unit.acquiredOn() == null || unit.acquiredOn().isBefore(day))
            .filter(
                unit ->
                    unit.state() != UnitState.RETIRED
                        || (unit.retiredOn() != null && !unit.retiredOn().isBefore(day)))
            .count();
  }

  private List<Channel> channels(Long locationId, Period year, LocalDate today) {
    ZoneId zone = locations.zone(locationId);
    Map<String, List<Integer>> late = new LinkedHashMap<>();
    for (ReachBy way : ReachBy.values()) {
      late.put(way.words(), new ArrayList<>());
    }
    String unknown = "not known";
    late.put(unknown, new ArrayList<>());
    for (Object[] row :
        em.createQuery(
                "select p.reachBy, l.dueOn, l.returnedAt from Loan l, Patient p where"
                    + " p.id = l.patientId and l.locationId = :at and l.dueOn between :from and"
                    + " :to and l.state <> :void",
                Object[].class)
            .setParameter("at", locationId)
            .setParameter("from", year.from())
            .setParameter("to", year.to())
            .setParameter("void", LoanState.VOID)
            .getResultList()) {
      LocalDate end = row[2] == null ? today : LocalDate.ofInstant((Instant) row[2], zone);
      int days = (int) Math.max(0, ChronoUnit.DAYS.between((LocalDate) row[1], end));
      if (row[2] != null || days > 0) {
        late.get(row[0] == null ? unknown : ((ReachBy) row[0]).words()).add(days);
      }
    }
    List<Channel> channels = new ArrayList<>();
    late.forEach(
        (words, days) -> {
          if (!days.isEmpty()) {
            List<Integer> behind = days.stream().filter(d -> d > 0).sorted().toList();
            channels.add(
                new Channel(
                    words,
                    days.size(),
                    behind.size(),
                    behind.isEmpty() ? null : behind.get((behind.size() - 1) / 2)));
          }
        });
    return channels;
  }
}
