package clinic.stimshelf.review;

import clinic.stimshelf.access.Staff;
import clinic.stimshelf.calc.consumption.Split;
import clinic.stimshelf.calc.consumption.Statement;
import clinic.stimshelf.calc.consumption.Use;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.MovementReason;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadTypeView;
import clinic.stimshelf.pads.PriceList;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.Course;
import clinic.stimshelf.program.Courses;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/** Where packs went: one reckoning for page, paper, file and call. */
@ApplicationScoped
public class Consumption {
  @Inject PackRecords records;
  @Inject Courses courses;
  @Inject PriceList priceList;
  @Inject PadCatalog catalog;
  @Inject Locations locations;
  @Inject Staff staff;
  @Inject Patients patients;

  /** What was read for one period. */
  private record Looked(
      PeriodUse use,
      Prices prices,
      List<PackRecords.Aside> aside,
      Map<Long, BigDecimal> wholeCosts,
      List<Course> courses) {}

  /**
   * @param locationIds whose packs and programs; at least one
   */
  @Transactional
  public ConsumptionView of(Collection<Long> locationIds, Period period, Against against) {
    Period earlier = against.earlier(period);
    Looked now = look(locationIds, period);
    Looked then = earlier == null ? null : look(locationIds, earlier);
    List<Cell> cells = earlier == null ? planned(now) : compared(now, then);
    Names names = names(now, then);
    return new ConsumptionView(
        period,
        against,
        earlier,
        Statement.of(cells.stream().map(Cell::split).reduce(Split.none(), Split::plus)),
        measures(now),
        then == null ? null : measures(then),
        new ConsumptionTables(names, now.use()).of(cells),
        new ConsumptionReasons(names, period).of(cells, earlier == null),
        drawer(now),
        shelf(now));
  }

  private Looked look(Collection<Long> at, Period period) {
    List<Course> running = courses.between(at, period.from(), period.to());
    List<PackRecords.Given> given = records.given(at, period);
    List<PackRecords.Aside> aside = records.aside(at, period);
    List<PackRecords.Whole> whole = records.whole(at, period);
    Set<Long> lots = new HashSet<>();
    given.forEach(one -> lots.add(one.lotId()));
    aside.forEach(one -> lots.add(one.lotId()));
    whole.forEach(one -> lots.add(one.lotId()));
    Prices prices = new Prices(priceList.on(period.from()), priceList.paid(lots));
    PeriodUse use =
        new PeriodUse.Builder(running, prices)
            .given(given)
            .wasted(records.wasted(at, period))
            .build();
    Map<Long, BigDecimal> costs = new LinkedHashMap<>();
    whole.forEach(
        one ->
            costs.merge(
                one.programId(),
                BigDecimal.valueOf(one.packs()).multiply(prices.paid(one.padCode(), one.lotId())),
                BigDecimal::add));
    return new Looked(use, prices, aside, costs, running);
  }

  /** A slice with what it was before and the steps between. */
  record Cell(PeriodUse.Key key, Course course, Use before, Use now, Split split) {}

  private static List<Cell> planned(Looked now) {
    return now.use().slices().stream()
        .map(
            slice -> {
              BigDecimal price = now.prices().planned(slice.key().padCode());
              return new Cell(
                  slice.key(),
                  now.use().courses().get(slice.key().programId()),
                  Use.planned(slice.planned(), price),
                  slice.use(),
                  Split.ofPlan(slice.planned(), slice.use(), price));
            })
        .toList();
  }

  /** Uses and prices of the earlier period are those of the pad type at the location. */
  private static List<Cell> compared(Looked now, Looked then) {
    record At(String padCode, Long locationId) {}
    Map<At, Use> pooled = new LinkedHashMap<>();
    Map<PeriodUse.Key, Use[]> uses = new LinkedHashMap<>();
    for (PeriodUse.Slice slice : then.use().slices()) {
      pooled.merge(new At(slice.key().padCode(), slice.key().locationId()), slice.use(), Use::plus);
      uses.computeIfAbsent(slice.key(), key -> new Use[] {Use.NONE, Use.NONE})[0] = slice.use();
    }
    for (PeriodUse.Slice slice : now.use().slices()) {
      uses.computeIfAbsent(slice.key(), key -> new Use[] {Use.NONE, Use.NONE})[1] = slice.use();
    }
    List<Cell> cells = new ArrayList<>();
    uses.forEach(
        (key, use) -> {
          Use before = pooled.getOrDefault(new At(key.padCode(), key.locationId()), Use.NONE);
          Course course =
              now.use()
                  .courses()
                  .getOrDefault(key.programId(), then.use().courses().get(key.programId()));
          cells.add(
              new Cell(
                  key,
                  course,
                  use[0],
                  use[1],
                  Split.of(
                      use[0],
                      use[1],
                      Split.rate(before),
                      Split.price(before, then.prices().planned(key.padCode())))));
        });
    return cells;
  }

  private static ConsumptionView.Measures measures(Looked looked) {
    int planned = 0;
    int done = 0;
    int noEntry = 0;
    BigDecimal unknown = BigDecimal.ZERO;
    int completed = 0;
    BigDecimal cost = BigDecimal.ZERO;
    for (Course course : looked.courses()) {
      planned += course.planned();
      done += course.done();
      noEntry += course.noEntry();
      for (Course.Line line : course.lines()) {
        if (line.planned() > 0) {
          // Where a version changed the pads, what is unknown is shared by planned sessions.
          unknown =
              unknown.add(
                  PeriodUse.Builder.worth(line, course.noEntry())
                      .multiply(BigDecimal.valueOf(line.planned()))
                      .divide(
                          BigDecimal.valueOf(course.planned()),
                          Use.PLACES,
                          RoundingMode.HALF_EVEN));
        }
      }
      if (course.completed()) {
        completed++;
        cost = cost.add(looked.wholeCosts().getOrDefault(course.programId(), BigDecimal.ZERO));
      }
    }
    BigDecimal packs =
        looked.use().slices().stream()
            .map(slice -> slice.use().packs())
            .reduce(BigDecimal.ZERO, BigDecimal::add);
    return new ConsumptionView.Measures(
        planned,
        done,
        noEntry,
        unknown.setScale(1, RoundingMode.HALF_EVEN),
        per100(packs, done),
        completed,
        completed == 0
            ? null
            : cost.divide(BigDecimal.valueOf(completed), 2, RoundingMode.HALF_EVEN));
  }

  static BigDecimal per100(BigDecimal packs, int sessions) {
    return sessions == 0
        ? null
        : packs.movePointRight(2).divide(BigDecimal.valueOf(sessions), 1, RoundingMode.HALF_EVEN);
  }

  private static List<ConsumptionView.Aside> drawer(Looked looked) {
    return asides(
        looked,
        one -> one.reason() == MovementReason.DRAWER_TAKE,
        one -> one.drawerReason() == null ? "other" : one.drawerReason().word(),
        one -> one.drawerReason() == null ? "no reason entered" : one.drawerReason().words());
  }

  private static List<ConsumptionView.Aside> shelf(Looked looked) {
    return asides(
        looked,
        one -> one.reason() != MovementReason.DRAWER_TAKE,
        one -> one.reason().word(),
        one -> one.reason().words());
  }

  private static List<ConsumptionView.Aside> asides(
      Looked looked,
      Predicate<PackRecords.Aside> which,
      Function<PackRecords.Aside, String> reason,
      Function<PackRecords.Aside, String> words) {
    Map<String, ConsumptionView.Aside> byReason = new LinkedHashMap<>();
    for (PackRecords.Aside one : looked.aside()) {
      if (which.test(one)) {
        BigDecimal cost =
            one.ours()
                ? BigDecimal.valueOf(one.packs())
                    .multiply(looked.prices().paid(one.padCode(), one.lotId()))
                : BigDecimal.ZERO;
        byReason.merge(
            reason.apply(one),
            new ConsumptionView.Aside(reason.apply(one), words.apply(one), one.packs(), cost),
            (a, b) ->
                new ConsumptionView.Aside(
                    a.reason(), a.words(), a.packs() + b.packs(), a.cost().add(b.cost())));
      }
    }
    return byReason.values().stream()
        .map(
            one ->
                new ConsumptionView.Aside(
                    one.reason(),
                    one.words(),
                    one.packs(),
                    one.cost().setScale(2, RoundingMode.HALF_EVEN)))
        .sorted(Comparator.comparing(ConsumptionView.Aside::cost).reversed())
        .toList();
  }

  /** Names of whom and what the slices are about. */
  record Names(
      Map<Long, String> staff,
      Map<Long, String> patients,
      Map<String, PadTypeView> pads,
      Map<Long, String> locations) {}

  private Names names(Looked now, Looked then) {
    Set<Long> therapists = new HashSet<>();
    Set<Long> people = new HashSet<>();
    List<Course> all = new ArrayList<>(now.courses());
    if (then != null) {
      all.addAll(then.courses());
    }
    all.forEach(
        course -> {
          therapists.add(course.therapistId());
          people.add(course.patientId());
        });
    Map<Long, String> patientNames = new LinkedHashMap<>();
    patients.byIds(people).forEach((id, patient) -> patientNames.put(id, patient.name()));
    return new Names(
        staff.names(therapists),
        patientNames,
        catalog.all().stream().collect(Collectors.toMap(PadTypeView::code, Function.identity())),
        locations.all().stream().collect(Collectors.toMap(LocationView::id, LocationView::name)));
  }
}
