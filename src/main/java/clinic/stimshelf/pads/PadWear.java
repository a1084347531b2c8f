package clinic.stimshelf.pads;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.audit.TrailEntry;
import clinic.stimshelf.calc.wear.Life;
import clinic.stimshelf.calc.wear.LotComparison;
import clinic.stimshelf.calc.wear.PlanningLife;
import clinic.stimshelf.calc.wear.ProductLimit;
import clinic.stimshelf.calc.wear.Weibull;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * How long pads last in this clinic. Sets of all locations count together, those that ended in the
 * last three years; how sure a plan must be is each location's own. The database counts; what is
 * read are sums.
 */
@ApplicationScoped
public class PadWear {
  /** Makers change what they make; common practice, no source. */
  private static final int YEARS = 3;

  /** The usual level of a test; common practice, no source. */
  public static final double ALPHA = 0.05;

  /** One patient whose skin suits no pad must not make a lot bad. */
  static final int LEAST_PATIENTS = 3;

  /** A set that failed in its first session lasted some part of it. */
  private static final double WITHIN_THE_FIRST = 0.5;

  private static final String WEARING = "active = true and shape <> ?1 order by name";

  static final String CHANGED = "planned life changed";

  @Inject PadTypeRows types;
  @Inject PadCatalog catalog;
  @Inject Locations locations;
  @Inject ExpectedUses expected;
  @Inject Trail trail;
  @Inject EntityManager em;
  @Inject Clock clock;

  /** Ended sets of one type: lives for the reckoning, and how they ended. */
  record Lives(List<Life> lives, Map<PadOutcome, Long> ends) {
    static Lives none() {
      return new Lives(new ArrayList<>(), new TreeMap<>());
    }
  }

  /** The life that plans may count on, as it stands in the trail. */
  record Planned(int uses, String from, long worn, long observed) {
    static Planned of(PlanningLife life) {
      return new Planned(
          life.uses(),
          life.basis() == PlanningLife.Basis.FITTED ? "own sets" : "rated",
          life.worn(),
          life.observed());
    }

    static Planned of(JsonNode told) {
      return new Planned(
          told.path("uses").asInt(),
          told.path("from").asText(),
          told.path("worn").asLong(),
          told.path("observed").asLong());
    }
  }

  /** Sessions that plans of a location may count on, by pad code, for every type in use. */
  @Transactional
  public Map<String, Integer> plannedUses(Long locationId) {
    double reliability = reliability(locationId);
    List<PadType> all = types.list(WEARING, PadShape.SUPPLY);
    Map<Long, Lives> lives = lives(all.stream().map(type -> type.id).toList());
    Map<String, Integer> uses = new HashMap<>();
    for (PadType type : all) {
      uses.put(type.code, planning(type, lives.get(type.id), reliability).uses());
    }
    return uses;
  }

  /** How sets of a type last, as a location plans with it. */
  @Transactional
  public WearView of(String padCode, Long locationId) {
    return views(List.of(catalog.row(padCode)), locationId).get(0);
  }

  /** The same for every type in use, by name. */
  @Transactional
  public List<WearView> all(Long locationId) {
    return views(types.list(WEARING, PadShape.SUPPLY), locationId);
  }

  /** Every lot that should be held back, of any type in use, with the type's view. */
  @Transactional
  public List<WearView> withProposals(Long locationId) {
    Map<Long, PadType> suspects = new HashMap<>();
    List<PadType> all = types.list(WEARING, PadShape.SUPPLY);
    Map<Long, List<WearView.Lot>> lots = lots(all);
    all.stream()
        .filter(
            type -> lots.getOrDefault(type.id, List.of()).stream().anyMatch(WearView.Lot::proposed))
        .forEach(type -> suspects.put(type.id, type));
    return suspects.isEmpty() ? List.of() : views(List.copyOf(suspects.values()), locationId);
  }

  private List<WearView> views(List<PadType> wanted, Long locationId) {
    double reliability = reliability(locationId);
    Map<Long, Lives> lives = lives(wanted.stream().map(type -> type.id).toList());
    Map<Long, List<WearView.Lot>> lots = lots(wanted);
    return wanted.stream()
        .map(
            type ->
                view(
                    type,
                    lives.getOrDefault(type.id, Lives.none()),
                    lots.getOrDefault(type.id, List.of()),
                    reliability,
                    locationId))
        .toList();
  }

  private WearView view(
      PadType type, Lives lives, List<WearView.Lot> lots, double reliability, Long locationId) {
    PlanningLife life = planning(type, lives, reliability);
    Weibull fit = life.fit().map(Weibull.Fit::weibull).orElse(null);
    return new WearView(
        type.code,
        type.name,
        type.ratedUses,
        life.uses(),
        life.basis() == PlanningLife.Basis.FITTED,
        life.worn(),
        life.observed(),
        PlanningLife.ENOUGH_WORN,
        reliability,
        fit == null ? null : fit.shape(),
        fit == null ? null : fit.scale(),
        lives.ends().entrySet().stream()
            .map(end -> new WearView.End(end.getKey(), end.getValue()))
            .sorted(Comparator.comparing(WearView.End::sets).reversed())
            .toList(),
        ProductLimit.of(lives.lives()).points().stream()
            .map(
                point ->
                    new WearView.Step(
                        point.time(),
                        point.atRisk(),
                        point.ended(),
                        point.surviving(),
                        fit == null ? null : fit.surviving(point.time())))
            .toList(),
        lots,
        changes(type, locationId));
  }

  private List<WearView.Change> changes(PadType type, Long locationId) {
    String code = locations.byId(locationId).code();
    return trail.of(Subject.of("pad-type", type.code)).stream()
        .filter(entry -> entry.action().equals(CHANGED + " at " + code))
        .map(entry -> new WearView.Change(entry.at(), words(entry.before()), words(entry.after())))
        .toList();
  }

  private static String words(JsonNode planned) {
    return planned == null
        ? "?"
        : planned.path("uses").asInt() + " (" + planned.path("from").asText() + ")";
  }

  /** What is known of a type before something changes it. */
  Lives livesNow(PadType type) {
    return lives(List.of(type.id)).getOrDefault(type.id, Lives.none());
  }

  /** No location's plans change without a line in the trail that has both numbers. */
  void tellIfPlanningChanged(PadType type, Lives before, Happened happened) {
    Lives after = livesNow(type);
    if (before.equals(after)) {
      return;
    }
    for (LocationView location : locations.all()) {
      double reliability = reliability(location.id());
      Planned was = Planned.of(planning(type, before, reliability));
      Planned is = Planned.of(planning(type, after, reliability));
      if (was.uses() != is.uses() || !was.from().equals(is.from())) {
        trail.record(
            Subject.of("pad-type", type.code),
            location.id(),
            CHANGED + " at " + location.code(),
            happened,
            was,
            is);
      }
    }
  }

  /** Files brought ended sets: where plans count on another life than was last told, say so. */
  @Transactional
  public void tellWhatFilesChanged(Happened happened) {
    List<PadType> all = types.list(WEARING, PadShape.SUPPLY);
    Map<Long, Lives> lives = lives(all.stream().map(type -> type.id).toList());
    Map<LocationView, Double> reliability = new LinkedHashMap<>();
    locations.all().forEach(place -> reliability.put(place, reliability(place.id())));
    for (PadType type : all) {
      List<TrailEntry> told = trail.of(Subject.of("pad-type", type.code));
      for (LocationView location : reliability.keySet()) {
        String action = CHANGED + " at " + location.code();
        Planned was =
            told.stream()
                .filter(entry -> entry.action().equals(action))
                .findFirst()
                .map(entry -> Planned.of(entry.after()))
                .orElseGet(() -> new Planned(type.ratedUses, "rated", 0, 0));
        Planned is = Planned.of(planning(type, lives.get(type.id), reliability.get(location)));
        if (was.uses() != is.uses() || !was.from().equals(is.from())) {
          trail.record(Subject.of("pad-type", type.code), location.id(), action, happened, was, is);
        }
      }
    }
  }

  private static PlanningLife planning(PadType type, Lives lives, double reliability) {
    return PlanningLife.of(lives == null ? List.of() : lives.lives(), type.ratedUses, reliability);
  }

  private double reliability(Long locationId) {
    return locations.settings(locationId).number(Setting.PAD_RELIABILITY);
  }

  private LocalDate since() {
    return LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC).minusYears(YEARS);
  }

  private Map<Long, Lives> lives(Collection<Long> typeIds) {
    Map<Long, Lives> lives = new HashMap<>();
    if (typeIds.isEmpty()) {
      return lives;
    }
    em.createQuery(
            "select s.type.id, s.uses + s.expectedUses, s.outcome, count(s) from PadSet s where"
                + " s.type.id in :types and s.closedOn >= :since and s.outcome is not null group by"
                + " s.type.id, s.uses + s.expectedUses, s.outcome order by 1, 2, 3",
            Object[].class)
        .setParameter("types", typeIds)
        .setParameter("since", since())
        .getResultList()
        .forEach(
            row -> {
              Lives of = lives.computeIfAbsent((Long) row[0], type -> Lives.none());
              int uses = ((Number) row[1]).intValue();
              PadOutcome outcome = (PadOutcome) row[2];
              int sets = ((Long) row[3]).intValue();
              boolean ended = outcome.wornOut();
              double time = ended && uses == 0 ? WITHIN_THE_FIRST : uses;
              of.lives().add(new Life(time, ended, sets));
              of.ends().merge(outcome, (long) sets, Long::sum);
            });
    return lives;
  }

  private Map<Long, List<WearView.Lot>> lots(List<PadType> wanted) {
    if (wanted.isEmpty()) {
      return Map.of();
    }
    String early =
        "case when s.outcome in (clinic.stimshelf.pads.PadOutcome.DRIED_OUT,"
            + " clinic.stimshelf.pads.PadOutcome.WONT_STICK) or (s.outcome ="
            + " clinic.stimshelf.pads.PadOutcome.WORN and s.uses + s.expectedUses < s.ratedUses)"
            + " then ";
    List<Object[]> rows =
        em.createQuery(
                "select t.id, l.id, l.number, l.state, count(s), sum(s.uses + s.expectedUses),"
                    + " sum("
                    + early
                    + "1 else 0 end), count(distinct "
                    + early
                    + "s.patientId end) from PadSet s join s.type t join s.lot l where t.id in"
                    + " :types and s.openedOn >= :since group by t.id, l.id, l.number, l.state"
                    + " order by t.id, l.number",
                Object[].class)
            .setParameter("types", wanted.stream().map(type -> type.id).toList())
            .setParameter("since", since())
            .getResultList();
    Map<Long, Integer> untold = untoldByLot(wanted);
    rows.forEach(row -> row[5] = number(row[5]) + untold.getOrDefault((Long) row[1], 0));
    Map<Long, List<Object[]>> byType = new HashMap<>();
    rows.forEach(row -> byType.computeIfAbsent((Long) row[0], t -> new ArrayList<>()).add(row));
    Map<Long, List<WearView.Lot>> lots = new HashMap<>();
    byType.forEach((type, of) -> lots.put(type, compared(of)));
    return lots;
  }

  /** Sets in use wear in sessions, too, that nobody told of. */
  private Map<Long, Integer> untoldByLot(List<PadType> wanted) {
    List<PadSet> inUse =
        em.createQuery(
                "from PadSet s join fetch s.lot where s.type in :types and s.outcome is null and"
                    + " s.openedOn >= :since",
                PadSet.class)
            .setParameter("types", wanted)
            .setParameter("since", since())
            .getResultList();
    Map<Long, Integer> uses = expected.of(inUse);
    Map<Long, Integer> byLot = new HashMap<>();
    inUse.forEach(set -> byLot.merge(set.lot.id, uses.getOrDefault(set.id, 0), Integer::sum));
    return byLot;
  }

  private static List<WearView.Lot> compared(List<Object[]> rows) {
    List<LotComparison.Lot> seen =
        rows.stream()
            .map(
                row -> {
                  long early = number(row[6]);
                  return new LotComparison.Lot(
                      String.valueOf(row[1]), early, Math.max(1, Math.max(early, number(row[5]))));
                })
            .toList();
    LotComparison comparison = LotComparison.of(seen, ALPHA);
    List<WearView.Lot> lots = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      Object[] row = rows.get(i);
      LotComparison.Result result = comparison.lots().get(i);
      LotState state = (LotState) row[3];
      lots.add(
          new WearView.Lot(
              String.valueOf(row[1]),
              (String) row[2],
              state,
              number(row[4]),
              number(row[5]),
              number(row[6]),
              number(row[7]),
              result.ratePerThousand(),
              result.pValue(),
              result.adjustedPValue(),
              result.suspect(),
              result.suspect() && number(row[7]) >= LEAST_PATIENTS && state == LotState.FREE));
    }
    lots.sort(Comparator.comparing(WearView.Lot::adjusted).thenComparing(WearView.Lot::chance));
    return lots;
  }

  private static long number(Object sum) {
    return sum == null ? 0 : ((Number) sum).longValue();
  }
}
