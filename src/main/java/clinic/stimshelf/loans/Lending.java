package clinic.stimshelf.loans;

import clinic.stimshelf.calc.days.OpenDays;
import clinic.stimshelf.calc.pool.Returning;
import clinic.stimshelf.shelf.UnitView;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * How a location lends, as far as its past tells: what every promise of a day stands on.
 *
 * @param level how sure a promised unit must be
 * @param turnaroundDays from check in to ready
 * @param seen the newest loans
 */
record Lending(
    LocalDate today,
    ZoneId zone,
    OpenDays open,
    double level,
    int turnaroundDays,
    TimeAway away,
    Set<Long> extended,
    RequestsToCome toCome) {

  Lending(
      LocalDate today,
      ZoneId zone,
      OpenDays open,
      double level,
      int turnaroundDays,
      List<Away> seen,
      RequestsToCome toCome) {
    this(
        today, zone, open, level, turnaroundDays, TimeAway.of(seen, today), extended(seen), toCome);
  }

  private static Set<Long> extended(List<Away> seen) {
    Set<Long> extended = new HashSet<>();
    seen.stream().filter(Away::extended).map(Away::loanId).forEach(extended::add);
    return extended;
  }

  /** When a unit that is not free now is ready. */
  Returning returning(UnitView unit) {
    if (unit.testDue()) {
      return Returning.never();
    }
    return switch (unit.state()) {
      case ON_LOAN -> {
        LocalDate due = due(unit);
        yield due == null
            ? Returning.never()
            : away.home(
                unit.kind(), due, extended.contains(unit.use().subjectId()), turnaroundDays);
      }
      case TO_WIPE, TO_INSPECT, IN_TREATMENT -> Returning.surelyOn(turnaroundDays);
      case READY, RESERVED, OUT_OF_SERVICE, MISSING, RETIRED -> Returning.never();
    };
  }

  /** The local day on which the unit's use should end, or {@code null}. */
  LocalDate due(UnitView unit) {
    return unit.use() == null || unit.use().until() == null
        ? null
        : unit.use().until().atZone(zone).toLocalDate();
  }

  int daysTo(LocalDate day) {
    return (int) ChronoUnit.DAYS.between(today, day);
  }

  /** Days until each of the requests wants its unit. */
  List<Integer> daysTo(List<LoanRequest> rows) {
    return rows.stream().map(row -> daysTo(row.neededFrom)).toList();
  }
}
