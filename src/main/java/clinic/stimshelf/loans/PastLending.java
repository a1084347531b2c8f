package clinic.stimshelf.loans;

import clinic.stimshelf.calc.wear.Life;
import clinic.stimshelf.calc.wear.ProductLimit;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What a location's own loans say of its lending, kind by kind. */
@ApplicationScoped
public class PastLending {
  /** Demand is counted over so many weeks. */
  public static final int WEEKS = 26;

  private static final int LEAST_WEEKS = 4;
  private static final int YEARS = 2;
  private static final int LONGEST = 100_000;

  @Inject Shelf shelf;
  @Inject TimesAway times;
  @Inject LoanRequests requests;
  @Inject Programs programs;
  @Inject SureByDays sureBy;
  @Inject Locations locations;

  /**
   * Lending of one kind of unit at a location.
   *
   * @param begun loans that began in the last 26 weeks, or since lending began
   * @param waiting requests open now for which no unit is set aside and which would get this kind
   * @param overWeeks weeks they are counted over
   * @param meanDaysAway from check out to check in, counting those still out; 0 without loans
   * @param units owned that are lent out, missing ones left out
   * @param loans of two years, by day
   */
  public record OfKind(
      String kind,
      String name,
      int begun,
      int waiting,
      int overWeeks,
      double meanDaysAway,
      int units,
      List<Away> loans) {

    public OfKind {
      loans = List.copyOf(loans);
    }

    public boolean known() {
      return begun > 0;
    }

    /** Loans begun and requests waiting: what is asked for, but for those who went elsewhere. */
    public double requestsPerWeek() {
      return (begun + waiting) / (double) overWeeks;
    }
  }

  /** Every kind that the location lends out, by name. */
  @Transactional
  public List<OfKind> of(Long locationId) {
    LocalDate today = locations.today(locationId);
    Map<String, List<Away>> loans = new HashMap<>();
    for (Away loan : times.since(locationId, today.minusYears(YEARS))) {
      loans.computeIfAbsent(loan.kind(), none -> new ArrayList<>()).add(loan);
    }
    Map<String, List<UnitView>> units = new TreeMap<>();
    for (UnitView unit : shelf.at(locationId)) {
      if (unit.lendsOut() && unit.state() != UnitState.MISSING) {
        units.computeIfAbsent(unit.kind(), none -> new ArrayList<>()).add(unit);
      }
    }
    Map<String, Integer> waiting = waiting(locationId);
    return units.entrySet().stream()
        .map(
            entry ->
                of(
                    entry.getKey(),
                    entry.getValue(),
                    loans.getOrDefault(entry.getKey(), List.of()),
                    waiting.getOrDefault(entry.getKey(), 0),
                    today))
        .toList();
  }

  private static OfKind of(
      String kind, List<UnitView> units, List<Away> loans, int waiting, LocalDate today) {
    LocalDate from = today.minusWeeks(WEEKS);
    List<Life> lives = new ArrayList<>();
    int begun = 0;
    LocalDate first = today;
    for (Away loan : loans) {
      LocalDate last = loan.back() == null ? today : loan.back();
      lives.add(new Life(days(loan.out(), last), loan.back() != null, 1));
      first = loan.out().isBefore(first) ? loan.out() : first;
      begun += loan.out().isBefore(from) ? 0 : 1;
    }
    ProductLimit curve = ProductLimit.of(lives);
    return new OfKind(
        kind,
        units.get(0).kindName(),
        begun,
        waiting,
        (int) Math.max(LEAST_WEEKS, Math.min(WEEKS, ChronoUnit.WEEKS.between(first, today))),
        lives.isEmpty() ? 0 : curve.meanFurther(0, curve.longest()).orElse(0),
        units.size(),
        loans);
  }

  private static int days(LocalDate from, LocalDate to) {
    return (int) Math.max(0, Math.min(LONGEST, ChronoUnit.DAYS.between(from, to)));
  }

  /** A waiting request would get the smallest unit that suits it. */
  private Map<String, Integer> waiting(Long locationId) {
    List<LoanRequest> open =
        requests.list(
            "locationId = ?1 and openProgramId is not null and unitId is null", locationId);
    Map<Long, SignedProgram> signed =
        programs.signed(open.stream().map(row -> row.programId).toList());
    Map<String, String> connectors = new HashMap<>();
    Map<String, String> kinds = new HashMap<>();
    Map<String, Integer> waiting = new HashMap<>();
    for (LoanRequest row : open) {
      SignedProgram program = signed.get(row.programId);
      if (program != null) {
        String kind =
            kinds.computeIfAbsent(
                program.channels() + "/" + program.pads(),
                none -> smallest(sureBy.suitable(program, locationId, connectors)));
        waiting.merge(kind, 1, Integer::sum);
      }
    }
    return waiting;
  }

  private static String smallest(List<UnitView> suitable) {
    return suitable.stream()
        .min((one, other) -> Integer.compare(one.channels(), other.channels()))
        .map(UnitView::kind)
        .orElse("");
  }
}
