package clinic.stimshelf.pads;

import clinic.stimshelf.calc.demand.BatchSizes;
import clinic.stimshelf.calc.demand.CompoundPoisson;
import clinic.stimshelf.calc.demand.DatedDemand.Dated;
import clinic.stimshelf.calc.demand.DatedDemand.Reorder;
import clinic.stimshelf.calc.demand.DatedDemand.Stream;
import clinic.stimshelf.calc.demand.EconomicOrder;
import clinic.stimshelf.calc.demand.LeadTime;
import clinic.stimshelf.calc.demand.OrderProposal;
import clinic.stimshelf.calc.demand.ProjectedDay;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Answers for one pad type at one location, from facts to words. The arithmetic is that of {@code
 * calc.demand}; here stands only what counts as demand.
 */
final class Reckoning {
  private static final int SHOWN_DAYS = 35;
  private static final int LOOKED_AT_DAYS = 120;
  private static final int FARTHEST_COVER = 730;
  private static final double BAND = 0.9;
  private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("MMM d", Locale.US);

  private final ReorderFacts facts;
  private final clinic.stimshelf.calc.demand.DatedDemand<Source> demand;
  private final CompoundPoisson draws;
  private final LeadTime leadTime;

  /** What packs are for. */
  record Source(String kind, String text) {}

  private Reckoning(ReorderFacts facts) {
    this.facts = facts;
    this.leadTime = LeadTime.observed(facts.pastLeadDays(), LeadTime.fixed(facts.priorLeadDays()));
    this.demand =
        clinic.stimshelf.calc.demand.DatedDemand.of(
            facts.today(), dated(facts), streams(facts, leadTime));
    this.draws = stream(facts.draws(), facts.historyDays());
  }

  static ReorderView of(ReorderFacts facts) {
    return new Reckoning(facts).answer();
  }

  /** Level and order alone, without looking ahead day by day. */
  static OrderRule.Decision decide(ReorderFacts facts) {
    Reckoning reckoning = new Reckoning(facts);
    Reorder<Source> reorder =
        reckoning.demand.reorder(reckoning.leadTime, facts.reviewDays(), facts.serviceLevel());
    return new OrderRule.Decision(
        reorder.packs(), reckoning.proposal(reorder.packs(), reorder.point().meanDemand()).packs());
  }

  private ReorderView answer() {
    Reorder<Source> reorder = demand.reorder(leadTime, facts.reviewDays(), facts.serviceLevel());
    double mean = reorder.point().meanDemand();
    OrderProposal proposal = proposal(reorder.packs(), mean);
    List<ReorderView.Expiring> expiring = expiring();
    Map<LocalDate, Long> arrivals = arrivals(expiring);
    List<ProjectedDay> days = demand.projection(usableNow(), arrivals, SHOWN_DAYS, BAND);
    return new ReorderView(
        facts.code(),
        facts.location(),
        facts.position(),
        reorder.packs(),
        proposal.packs(),
        facts.serviceLevel(),
        mean,
        reorder.point().sdDemand(),
        reorder.point().safetyStock(),
        leadTime.mean(),
        facts.pastLeadDays().size(),
        facts.reviewDays(),
        cover(arrivals),
        reasons(reorder),
        days.stream()
            .map(
                day ->
                    new ReorderView.Day(
                        day.date(), day.expected(), day.low(), day.high(), day.stockoutChance()))
            .toList(),
        expiring,
        warnings(proposal, expiring));
  }

  private static List<Dated<Source>> dated(ReorderFacts facts) {
    List<Dated<Source>> dated = new ArrayList<>();
    facts
        .dated()
        .forEach(
            packs ->
                dated.add(new Dated<>(source(packs), packs.on(), packs.packs(), packs.chance())));
    if (usePerTreatment(facts) > 0) {
      int packs = (int) Math.min(1_000, Math.ceil(usePerTreatment(facts)));
      double chance = Math.min(1, usePerTreatment(facts) / packs) * (1 - facts.noShow());
      Source source = treatments(facts);
      facts
          .treatments()
          .booked()
          .forEach(day -> dated.add(new Dated<>(source, day, packs, chance)));
    }
    return dated;
  }

  private static Source source(DatedPacks packs) {
    return switch (packs.kind()) {
      case APPOINTMENT ->
          new Source("appointment", "booked appointments, less those who do not come");
      case SURGERY ->
          new Source("program", packs.label() + ", not signed yet, " + DAY.format(packs.on()));
      case PROGRAM -> new Source("program", packs.label() + ", " + DAY.format(packs.on()));
    };
  }

  /** What one treatment in the clinic takes; 0 where that is not known. */
  private static double usePerTreatment(ReorderFacts facts) {
    return facts.treatments().held() == 0 || facts.treatments().booked().isEmpty()
        ? 0
        : sum(facts.appointmentUses()) / (double) facts.treatments().held();
  }

  private static Source treatments(ReorderFacts facts) {
    return new Source(
        "appointment",
        "booked treatments, "
            + BigDecimal.valueOf(usePerTreatment(facts)).setScale(2, RoundingMode.HALF_EVEN)
            + " packs each, less "
            + Math.round(100 * facts.noShow())
            + " % who do not come");
  }

  private static List<Stream<Source>> streams(ReorderFacts facts, LeadTime leadTime) {
    List<Stream<Source>> streams = new ArrayList<>();
    double span = leadTime.mean() + Math.max(1, facts.reviewDays());
    LocalDate end = facts.today().plusDays((long) Math.ceil(span));
    boolean told =
        facts.dated().stream().anyMatch(packs -> packs.kind() == DatedPacks.Kind.APPOINTMENT);
    if (!told && !facts.appointmentUses().isEmpty()) {
      double booked =
          usePerTreatment(facts)
              * (1 - facts.noShow())
              * facts.treatments().booked().stream().filter(day -> day.isBefore(end)).count();
      double usual = sum(facts.appointmentUses()) * span / facts.historyDays();
      rest(facts.appointmentUses(), facts, 1 - booked / usual)
          .ifPresent(
              rest ->
                  streams.add(
                      new Stream<>(
                          new Source(
                              "appointment",
                              (booked > 0
                                      ? "treatments not booked yet; in all "
                                      : "used in appointments, ")
                                  + weekly(facts.appointmentUses(), facts)),
                          rest)));
    }
    if (!facts.drawerTakes().isEmpty()) {
      streams.add(
          new Stream<>(
              new Source("drawer", "drawer takes, " + weekly(facts.drawerTakes(), facts)),
              stream(facts.drawerTakes(), facts.historyDays())));
    }
    if (!facts.newStarts().isEmpty()) {
      long known =
          facts.dated().stream()
              .filter(packs -> packs.kind() == DatedPacks.Kind.SURGERY && packs.on().isBefore(end))
              .count();
      double usual = facts.newStarts().size() * span / facts.historyDays();
      rest(facts.newStarts(), facts, 1 - known / usual)
          .ifPresent(
              rest ->
                  streams.add(
                      new Stream<>(
                          new Source(
                              "new-starts",
                              "programs not yet known, "
                                  + number(facts.newStarts().size() * 7.0 / facts.historyDays())
                                  + " new ones a week"
                                  + (known > 0 ? ", less " + known + " written already" : "")),
                          rest)));
    }
    return streams;
  }

  /** What a stream still brings beyond what of it is known by day. */
  private static Optional<CompoundPoisson> rest(
      List<Integer> takings, ReorderFacts facts, double share) {
    return share > 0
        ? Optional.of(
            new CompoundPoisson(
                share * takings.size() / facts.historyDays(), BatchSizes.observed(takings)))
        : Optional.empty();
  }

  private static int sum(List<Integer> takings) {
    return takings.stream().mapToInt(Integer::intValue).sum();
  }

  private static CompoundPoisson stream(List<Integer> takings, int days) {
    return new CompoundPoisson(takings.size() / (double) days, BatchSizes.observed(takings));
  }

  private static String weekly(List<Integer> takings, ReorderFacts facts) {
    return number(sum(takings) * 7.0 / facts.historyDays())
        + " a week over the last "
        + Math.max(1, Math.round(facts.historyDays() / 7.0))
        + " weeks";
  }

  private static String number(double x) {
    return BigDecimal.valueOf(x).setScale(1, RoundingMode.HALF_EVEN).toPlainString();
  }

  private OrderProposal proposal(long reorderPoint, double mean) {
    if (mean == 0 && facts.position() >= 0) {
      return new OrderProposal(0, false, false);
    }
    OptionalDouble economic =
        facts.orderCost().isPresent()
                && facts.holdingCost().isPresent()
                && facts.holdingCost().getAsDouble() > 0
            ? OptionalDouble.of(
                EconomicOrder.quantity(
                    draws.mean(),
                    facts.orderCost().getAsDouble(),
                    facts.holdingCost().getAsDouble()))
            : OptionalDouble.empty();
    double kept = Math.max(0, facts.keptDays() - leadTime.mean());
    double untilExpiry = draws.mean() * kept;
    return OrderProposal.of(
        facts.position(),
        reorderPoint,
        economic,
        new OrderProposal.Supply(facts.packsPerCase(), facts.minimumOrder()),
        untilExpiry > 0 && untilExpiry <= CompoundPoisson.LARGEST_MEAN
            ? new OrderProposal.ShelfLife(draws.over(kept), facts.expiryCertainty())
            : null);
  }

  private List<ReorderView.Reason> reasons(Reorder<Source> reorder) {
    List<ReorderView.Reason> reasons = new ArrayList<>();
    reorder
        .reasons()
        .forEach(
            reason ->
                reasons.add(
                    new ReorderView.Reason(
                        reason.source().kind(), reason.packs(), reason.source().text())));
    reasons.add(
        new ReorderView.Reason(
            "safety",
            reorder.safety(),
            "safety, so that "
                + BigDecimal.valueOf(100 * facts.serviceLevel())
                    .setScale(2, RoundingMode.HALF_EVEN)
                    .stripTrailingZeros()
                    .toPlainString()
                + " of 100 such spans see no stock-out"));
    return reasons;
  }

  private long usableNow() {
    return (long) facts.onHand() - facts.quarantined() - facts.expired() - facts.owed();
  }

  /** Mean packs asked for over so many days: what is known, or the long run where that is more. */
  private double use(long days) {
    return Math.max(demand.mean(days), days > LOOKED_AT_DAYS ? draws.mean() * days : 0);
  }

  /** First expiry first along the mean demand: what of each lot is left on its last day. */
  private List<ReorderView.Expiring> expiring() {
    List<ReorderView.Expiring> unused = new ArrayList<>();
    double used = 0;
    for (ReorderFacts.LotHeld lot : facts.usable()) {
      long days = ChronoUnit.DAYS.between(facts.today(), lot.expiresOn()) + 1;
      double taken = Math.min(lot.packs(), Math.max(0, facts.owed() + use(days) - used));
      used += taken;
      int left = (int) Math.floor(lot.packs() - taken);
      if (left > 0 && days <= 365) {
        unused.add(new ReorderView.Expiring(lot.number(), lot.expiresOn(), left));
      }
    }
    return unused;
  }

  private Map<LocalDate, Long> arrivals(List<ReorderView.Expiring> expiring) {
    Map<LocalDate, Long> arrivals = new HashMap<>();
    facts.coming().forEach(c -> arrivals.merge(c.day(), (long) c.packs(), Long::sum));
    expiring.forEach(
        lot -> arrivals.merge(lot.expiresOn().plusDays(1), (long) -lot.packs(), Long::sum));
    return arrivals;
  }

  /** Means are enough for this, so that the costly distributions end with the days shown. */
  private Integer cover(Map<LocalDate, Long> arrivals) {
    double left = 0;
    for (int n = 0; n < LOOKED_AT_DAYS; n++) {
      LocalDate day = facts.today().plusDays(n);
      long supply = usableNow();
      for (Map.Entry<LocalDate, Long> arrival : arrivals.entrySet()) {
        supply += arrival.getKey().isAfter(day) ? 0 : arrival.getValue();
      }
      left = supply - demand.mean(n + 1);
      if (left < 1) {
        return n;
      }
    }
    if (!(draws.mean() > 0)) {
      return null;
    }
    double more = LOOKED_AT_DAYS + (left - 1) / draws.mean();
    return more > FARTHEST_COVER ? null : (int) Math.floor(more);
  }

  private List<String> warnings(OrderProposal proposal, List<ReorderView.Expiring> expiring) {
    List<String> warnings = new ArrayList<>();
    if (proposal.cutByShelfLife()) {
      warnings.add("The order was made smaller, so that it is used before it expires.");
    }
    if (proposal.minimumMayExpire()) {
      warnings.add("The smallest order the supplier takes may not be used before it expires.");
    }
    if (facts.pastLeadDays().size() < LeadTime.ENOUGH) {
      warnings.add(
          "Fewer than "
              + LeadTime.ENOUGH
              + " deliveries are on record; the days until delivery partly rest on the "
              + facts.priorLeadDays()
              + " days set for this type.");
    }
    int unused = expiring.stream().mapToInt(ReorderView.Expiring::packs).sum();
    if (unused > 0) {
      warnings.add(unused + (unused == 1 ? " pack" : " packs") + " may expire unused.");
    }
    return warnings;
  }
}
