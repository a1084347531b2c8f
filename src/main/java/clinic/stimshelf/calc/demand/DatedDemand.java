package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

/**
 * What a clinic's shelf will be asked for: packs that are known by day, each with the chance that
 * it is really drawn, and streams of which only the rate is known.
 *
 * <p>All parts are independent. The demand over a number of days is their exact convolution; over
 * an uncertain lead time it is mixed over the outcomes. "Over n days" is the half-open stretch of
 * days from today on: what is ordered today and takes n days arrives in time for day n. What was
 * due before today and still has to leave counts as due today.
 *
 * @param <K> names a source in the caller's words, for example a program; sources are equal where
 *     their names are
 */
public final class DatedDemand<K> {

  private static final int MOST_PACKS = 20_000;

  private final LocalDate today;
  private final List<Dated<K>> dated;
  private final List<Stream<K>> streams;

  private DatedDemand(LocalDate today, List<Dated<K>> dated, List<Stream<K>> streams) {
    this.today = today;
    this.dated = dated;
    this.streams = streams;
  }

  /**
   * Packs that leave the shelf on a known day, together or not at all.
   *
   * @param source what they are for
   * @param day when they are due to leave
   * @param packs 0 to 1 000
   * @param probability that they leave, 0 to 1: adherence for later packs of a program, one less
   *     the no-show rate for an appointment, 1 for what is certain
   */
  public record Dated<K>(K source, LocalDate day, int packs, double probability) {
    public Dated {
      Check.within("packs", packs, 0, 1_000);
      Check.probability("probability", probability);
    }

    double mean() {
      return packs * probability;
    }
  }

  /**
   * Packs of which only the rate is known: drawer takes, new starts.
   *
   * @param source what they are for
   * @param perDay takings a day and their sizes
   */
  public record Stream<K>(K source, CompoundPoisson perDay) {}

  /**
   * A share of the reorder point.
   *
   * @param source what it is for
   * @param packs its mean demand over the protection interval, to two decimals, 0 or more
   */
  public record Reason<K>(K source, BigDecimal packs) {}

  /**
   * When to order, and why.
   *
   * @param point over lead time and review
   * @param distribution of the demand over lead time and review
   * @param reasons by source, in the order of entry, those without demand left out
   * @param safety what the reorder point holds above the sum of the reasons; negative where the
   *     service level is so low that less than the mean is held
   */
  public record Reorder<K>(
      ReorderPoint point, Pmf distribution, List<Reason<K>> reasons, BigDecimal safety) {

    /** The reorder point as a whole number; the reasons and the safety sum to it exactly. */
    public long packs() {
      return (long) point.reorderPoint();
    }
  }

  /**
   * @param today the first day of the demand
   * @param dated in any order; their packs may sum to 20 000
   * @param streams any number
   * @throws BadInput if there are more packs than that
   */
  public static <K> DatedDemand<K> of(
      LocalDate today, List<Dated<K>> dated, List<Stream<K>> streams) {
    long packs = dated.stream().mapToLong(Dated::packs).sum();
    if (packs > MOST_PACKS) {
      throw new BadInput(
          "dated", packs + " dated packs are more than the 20 000 that are computed.");
    }
    List<Dated<K>> ascending = new ArrayList<>(dated);
    ascending.sort(Comparator.comparing(Dated::day));
    return new DatedDemand<>(today, List.copyOf(ascending), List.copyOf(streams));
  }

  /**
   * The exact distribution of the packs asked for over so many days from today.
   *
   * @param days 0 or more; a day that is begun counts whole for what is dated: 2.5 days hold the
   *     dated packs of three days
   */
  public Pmf over(double days) {
    Pmf sum = Pmf.ZERO;
    for (Dated<K> draw : dated) {
      if (isWithin(draw, days)) {
        sum = sum.convolve(Pmf.maybe(draw.packs(), draw.probability()));
      }
    }
    return sum.convolve(streamsOver(days));
  }

  /** Mean packs over so many days from today. */
  public double mean(double days) {
    double sum = 0;
    for (Dated<K> draw : dated) {
      sum += isWithin(draw, days) ? draw.mean() : 0;
    }
    for (Stream<K> stream : streams) {
      sum += stream.perDay().mean() * days;
    }
    return sum;
  }

  /**
   * The smallest number of packs that lasts over lead time and review with the service level.
   *
   * @param leadTime days from order to shelf
   * @param reviewDays days between two looks at the shelf; at least 1 counts
   * @param serviceLevel chance of no stock-out, strictly between 0 and 1
   */
  public Reorder<K> reorder(LeadTime leadTime, double reviewDays, double serviceLevel) {
    Check.within("reviewDays", reviewDays, 0, 366);
    double review = Math.max(1, reviewDays);
    List<LeadTime.Outcome> outcomes = leadTime.outcomes();
    Pmf mixed = Pmf.mixture(leadTime.probabilities(), overEach(outcomes, review));
    ReorderPoint point = ReorderPoint.of(mixed, Target.cycle(serviceLevel), OptionalDouble.empty());
    List<Reason<K>> reasons = reasons(outcomes, review);
    BigDecimal explained =
        reasons.stream().map(Reason::packs).reduce(BigDecimal.ZERO, BigDecimal::add);
    BigDecimal safety = BigDecimal.valueOf((long) point.reorderPoint()).subtract(explained);
    return new Reorder<>(point, mixed, reasons, safety);
  }

  /**
   * How the shelf develops if nothing further is ordered.
   *
   * @param usableNow packs on the shelf that may be given out, less what is owed
   * @param arrivals packs that come or, where negative, are lost on a day; those before today count
   *     as come
   * @param days how many days from today on, 1 to 366
   * @param band share of outcomes between low and high, strictly between 0 and 1, for example 0.9
   */
  public List<ProjectedDay> projection(
      long usableNow, Map<LocalDate, Long> arrivals, int days, double band) {
    Check.within("days", days, 1, 366);
    Check.insideUnit("band", band);
    List<ProjectedDay> projected = new ArrayList<>(days);
    Pmf streamDay = streamsOver(1);
    Pmf demand = Pmf.ZERO;
    int next = 0;
    for (int n = 0; n < days; n++) {
      LocalDate day = today.plusDays(n);
      for (; next < dated.size() && !dated.get(next).day().isAfter(day); next++) {
        Dated<K> draw = dated.get(next);
        demand = demand.convolve(Pmf.maybe(draw.packs(), draw.probability()));
      }
      demand = demand.convolve(streamDay);
      long supply = usableNow;
      for (Map.Entry<LocalDate, Long> arrival : arrivals.entrySet()) {
        supply += arrival.getKey().isAfter(day) ? 0 : arrival.getValue();
      }
      projected.add(
          new ProjectedDay(
              day,
              supply - mean(n + 1),
              supply - demand.quantile((1 + band) / 2),
              supply - demand.quantile((1 - band) / 2),
              demand.above(supply)));
    }
    return projected;
  }

  private List<Pmf> overEach(List<LeadTime.Outcome> ascending, double review) {
    List<Pmf> parts = new ArrayList<>(ascending.size());
    Pmf known = Pmf.ZERO;
    int next = 0;
    for (LeadTime.Outcome outcome : ascending) {
      double days = outcome.days() + review;
      for (; next < dated.size() && isWithin(dated.get(next), days); next++) {
        Dated<K> draw = dated.get(next);
        known = known.convolve(Pmf.maybe(draw.packs(), draw.probability()));
      }
      parts.add(known.convolve(streamsOver(days)));
    }
    return parts;
  }

  private List<Reason<K>> reasons(List<LeadTime.Outcome> outcomes, double review) {
    Map<K, Double> means = new LinkedHashMap<>();
    for (LeadTime.Outcome outcome : outcomes) {
      double days = outcome.days() + review;
      for (Dated<K> draw : dated) {
        if (isWithin(draw, days)) {
          means.merge(draw.source(), outcome.probability() * draw.mean(), Double::sum);
        }
      }
      for (Stream<K> stream : streams) {
        means.merge(
            stream.source(), outcome.probability() * stream.perDay().mean() * days, Double::sum);
      }
    }
    List<Reason<K>> reasons = new ArrayList<>();
    means.forEach(
        (source, mean) -> {
          BigDecimal packs = BigDecimal.valueOf(mean).setScale(2, RoundingMode.HALF_EVEN);
          if (packs.signum() > 0) {
            reasons.add(new Reason<>(source, packs));
          }
        });
    return reasons;
  }

  private boolean isWithin(Dated<K> draw, double days) {
    return days > 0 && ChronoUnit.DAYS.between(today, draw.day()) < days;
  }

  private Pmf streamsOver(double days) {
    Pmf sum = Pmf.ZERO;
    for (Stream<K> stream : streams) {
      sum = sum.convolve(stream.perDay().over(days));
    }
    return sum;
  }
}
