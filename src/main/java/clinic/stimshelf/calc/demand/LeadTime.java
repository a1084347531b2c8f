package clinic.stimshelf.calc.demand;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.numbers.core.Sum;

/**
 * Days from ordering to having: outcomes with their probabilities.
 *
 * @param outcomes ascending by days, probabilities summing to 1
 */
public record LeadTime(List<Outcome> outcomes) {

  /** Deliveries that the clinic needs of its own before a prior no longer counts. */
  public static final int ENOUGH = 5;

  private static final double LONGEST = 100_000;

  /**
   * @param days 0 to 100 000
   * @param probability 0 to 1
   */
  public record Outcome(double days, double probability) {

    public Outcome {
      Check.within("leadTimeDays.outcomes.days", days, 0, LONGEST);
      Check.probability("leadTimeDays.outcomes.probability", probability);
    }
  }

  /**
   * @throws BadInput if there is no outcome or the probabilities do not sum to 1 within 1e-9
   */
  public LeadTime {
    double sum =
        Sum.of(outcomes.stream().mapToDouble(Outcome::probability).toArray()).getAsDouble();
    if (!(Math.abs(sum - 1) <= 1e-9)) {
      throw new BadInput(
          "leadTimeDays.outcomes",
          "The probabilities of the lead times sum to " + sum + ", but must sum to 1.");
    }
    TreeMap<Double, Double> merged = new TreeMap<>();
    outcomes.forEach(o -> merged.merge(o.days() + 0.0, o.probability() / sum, Double::sum));
    merged.values().removeIf(p -> p == 0);
    outcomes =
        merged.entrySet().stream()
            .map(e -> new Outcome(e.getKey(), Math.min(1, e.getValue())))
            .toList();
  }

  /** Always so many days, whole or not. */
  public static LeadTime fixed(double days) {
    return new LeadTime(List.of(new Outcome(days, 1)));
  }

  /** By the probability of each number of days. */
  public static LeadTime of(Map<Integer, Double> probabilities) {
    return new LeadTime(
        probabilities.entrySet().stream().map(e -> new Outcome(e.getKey(), e.getValue())).toList());
  }

  /**
   * The clinic's own past deliveries, each as likely as the others. Below {@value #ENOUGH} the
   * prior stands in for the missing ones.
   *
   * @param pastDays days that past deliveries took, newest or not
   * @param prior what is believed before any delivery was seen
   */
  public static LeadTime observed(List<Integer> pastDays, LeadTime prior) {
    int own = pastDays.size();
    double missing = Math.max(0, ENOUGH - own);
    double all = own + missing;
    List<Outcome> mixed = new ArrayList<>();
    pastDays.forEach(days -> mixed.add(new Outcome(days, 1 / all)));
    if (missing > 0) {
      prior.outcomes.forEach(
          o -> mixed.add(new Outcome(o.days(), o.probability() * missing / all)));
    }
    return new LeadTime(mixed);
  }

  /** Mean days. */
  public double mean() {
    return outcomes.stream().mapToDouble(o -> o.days() * o.probability()).sum();
  }

  /** Variance in days squared. */
  public double variance() {
    double mean = mean();
    return outcomes.stream()
        .mapToDouble(o -> (o.days() - mean) * (o.days() - mean) * o.probability())
        .sum();
  }

  /** Standard deviation in days. */
  public double sd() {
    return Math.sqrt(variance());
  }

  double[] probabilities() {
    return outcomes.stream().mapToDouble(Outcome::probability).toArray();
  }
}
