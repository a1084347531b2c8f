package clinic.stimshelf.loans;

import clinic.stimshelf.calc.pool.Standing;
import clinic.stimshelf.calc.pool.SureBy;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.shelf.Purpose;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitView;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The sure-by day of requests: the first open day on which the chance that a suitable unit is free,
 * after those who come first and after turnaround, reaches the location's level. It is reckoned
 * anew from what stands on record whenever it is asked for.
 */
@ApplicationScoped
class SureByDays {
  @Inject Shelf shelf;
  @Inject Programs programs;
  @Inject PadCatalog pads;
  @Inject Locations locations;
  @Inject TimesAway times;
  @Inject LoanRequests requests;
  @Inject UnitsElsewhere elsewhere;

  /**
   * The outlook of each request, by its number, without units and steps.
   *
   * @param wanted the requests that are asked about
   * @param queue all open requests of their locations, in serving order
   */
  Map<Long, Outlook> of(List<LoanRequest> wanted, List<LoanRequest> queue) {
    return of(wanted, queue, false);
  }

  /** The outlook of one request with every unit it stands on and what would bring it forward. */
  Outlook inFull(LoanRequest row, List<LoanRequest> queue) {
    return of(List.of(row), queue, true).get(row.id);
  }

  private Map<Long, Outlook> of(List<LoanRequest> wanted, List<LoanRequest> queue, boolean inFull) {
    Map<Long, SignedProgram> signed =
        programs.signed(wanted.stream().map(row -> row.programId).distinct().toList());
    Reckoned reckoned = new Reckoned();
    Map<Long, Outlook> outlooks = new HashMap<>();
    for (LoanRequest row : wanted) {
      SignedProgram program = signed.get(row.programId);
      outlooks.put(
          row.id,
          program == null
              ? Outlook.of(null, "The program is no longer signed.", null, 0)
              : reckoned.outlook(row, program, queue, inFull));
    }
    return outlooks;
  }

  /** Suitable units of a location for a program; none where its pads need two connectors. */
  List<UnitView> suitable(SignedProgram program, Long locationId, Map<String, String> connectors) {
    Set<String> needed = new HashSet<>();
    program
        .pads()
        .forEach(
            line ->
                needed.add(
                    connectors.computeIfAbsent(
                        line.code(), code -> pads.byCode(code).connector())));
    return needed.size() > 1
        ? List.of()
        : shelf.candidates(locationId, program.channels(), needed, Purpose.HOME.word());
  }

  private Lending lending(Long locationId) {
    LocalDate today = locations.today(locationId);
    List<RequestsToCome.Asked> asked =
        requests
            .list(
                "locationId = ?1 and state <> ?2 and waitingSince >= ?3",
                locationId,
                RequestState.WITHDRAWN,
                today
                    .minusDays(RequestsToCome.WINDOW)
                    .atStartOfDay(locations.zone(locationId))
                    .toInstant())
            .stream()
            .map(
                row ->
                    new RequestsToCome.Asked(
                        LocalDate.ofInstant(row.waitingSince, locations.zone(locationId)),
                        row.neededFrom,
                        row.priority,
                        row.channels))
            .toList();
    List<Away> seen = times.newest(locationId);
    LocalDate since = seen.isEmpty() ? today : seen.get(seen.size() - 1).out();
    return new Lending(
        today,
        locations.zone(locationId),
        locations.openDays(locationId),
        locations.settings(locationId).number(Setting.SURENESS),
        (int) Math.ceil(locations.settings(locationId).number(Setting.TURNAROUND_DAYS)),
        seen,
        RequestsToCome.of(asked, since, today));
  }

  /** What requests of one answer share, so that each thing is read once. */
  private final class Reckoned {
    private final Map<String, String> connectors = new HashMap<>();
    private final Map<Long, Lending> lending = new HashMap<>();
    private final Map<String, List<UnitView>> suitable = new HashMap<>();

    Outlook outlook(
        LoanRequest row, SignedProgram program, List<LoanRequest> queue, boolean inFull) {
      Lending here = lending.computeIfAbsent(row.locationId, SureByDays.this::lending);
      LocalDate wished = Requests.wished(row, here.today());
      if (row.unitId != null) {
        return Outlook.of(wished, "A unit is set aside.", 1.0, 0);
      }
      List<UnitView> units = units(program, row.locationId);
      int most = units.stream().mapToInt(UnitView::channels).max().orElse(0);
      List<LoanRequest> ahead =
          Requests.ahead(row, queue).stream().filter(one -> one.channels <= most).toList();
      List<LoanRequest> earlier =
          Requests.behind(row, queue).stream()
              .filter(one -> one.channels <= most && one.neededFrom.isBefore(wished))
              .toList();
      List<UnitView> free =
          units.stream().filter(unit -> KitProposal.free(unit, row.id) && !unit.testDue()).toList();
      List<UnitView> others = units.stream().filter(unit -> !free.contains(unit)).toList();
      int days = (int) ChronoUnit.DAYS.between(here.today(), wished);
      Standing standing =
          new Standing(
              free.size(),
              others.stream().map(here::returning).toList(),
              days,
              new Standing.Rivals(
                  here.daysTo(ahead), here.toCome().ahead(row.priority, days, most)),
              new Standing.Rivals(
                  here.daysTo(earlier), here.toCome().earlier(row.priority, days, most)));
      Promise promise = Promise.of(here.today(), wished, standing, here.level(), here.open());
      String reason =
          units.isEmpty()
              ? "No unit here has " + program.channels() + " channels and takes these pads."
              : words(promise, standing, ahead.size(), ahead.size() + earlier.size());
      return inFull
          ? new Outlook(
              promise.on(),
              reason,
              promise.onWished(),
              ahead.size(),
              Outlook.counted(units, others, standing.returning(), here, wished, promise.on()),
              new Sooner(here, standing, promise, wished)
                  .steps(others, elsewhere.ready(row.locationId, place -> units(program, place))))
          : Outlook.of(promise.on(), reason, promise.onWished(), ahead.size());
    }

    private List<UnitView> units(SignedProgram program, Long locationId) {
      String key = locationId + "/" + program.channels() + "/" + program.pads();
      return suitable.computeIfAbsent(
          key, none -> SureByDays.this.suitable(program, locationId, connectors));
    }
  }

  private static String words(Promise promise, Standing standing, int ahead, int before) {
    return switch (promise.reason()) {
      case FOUND ->
          standing.freeNow() > before && promise.chance() > 0.995
              ? "Enough suitable units are on the shelf."
              : "Then a unit is there with a chance of " + Outlook.percent(promise.chance()) + ".";
      case TOO_FEW_UNITS ->
          "More people wait than suitable units can be counted on: "
              + ahead
              + " ahead, "
              + standing.countedOn()
              + (standing.countedOn() == 1 ? " unit." : " units.");
      case TOO_UNSURE ->
          "No day within "
              + SureBy.HORIZON
              + " days is sure enough; by then the chance is "
              + Outlook.percent(promise.chance())
              + ".";
    };
  }
}
