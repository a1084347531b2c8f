package clinic.stimshelf.whatif;

import clinic.stimshelf.calc.demand.BatchSizes;
import clinic.stimshelf.calc.demand.DailyDemand;
import clinic.stimshelf.calc.demand.LeadTime;
import clinic.stimshelf.calc.demand.Replenishment;
import clinic.stimshelf.calc.demand.Target;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.Supplier;

/** When to reorder and how much. */
final class ReorderQuestion {
  static final String EXAMPLE =
      """
      {"demand": {"kind": "poisson", "meanPerDay": 1.4}, \
      "leadTimeDays": {"outcomes": [{"days": 4, "probability": 0.5}, {"days": 5, "probability": 0.3}, \
      {"days": 9, "probability": 0.2}]}, "reviewDays": 1, "target": {"kind": "cycle", "value": 0.95}, \
      "orderCost": 12, "holdingCostPerPackYear": 2.5, "packsPerCase": 10}""";

  private static final int MOST_OUTCOMES = 100;
  static final Bound BATCH = Bound.whole(1, 1_000);
  private static final double SUM_TOLERANCE = 1e-9;

  private ReorderQuestion() {}

  /** In packs; quantities and fill rate null where nothing says how much is ordered. */
  record ReorderAnswer(
      double meanDemand,
      double sdDemand,
      double reorderPoint,
      double safetyStock,
      double chanceOfStockout,
      double expectedShortPerCycle,
      Double fillRate,
      Double economicOrderQuantity,
      Double orderQuantity) {}

  /** Either a mean with its spread, or outcomes. */
  private record Lead(double mean, double sd, List<LeadTime.Outcome> outcomes) {

    boolean spreads() {
      return outcomes.isEmpty() && sd > 0;
    }

    LeadTime distribution() {
      return outcomes.isEmpty() ? LeadTime.fixed(mean) : new LeadTime(outcomes);
    }
  }

  static ReorderAnswer answer(JsonNode body) {
    return Question.answer(body, ReorderQuestion::ask, Map.of());
  }

  private static Supplier<ReorderAnswer> ask(Fields in) {
    Fields demandIn = in.part("demand");
    String kind =
        demandIn.choice(
            "kind", List.of("normal", "poisson", "negative-binomial", "compound-poisson"));
    Supplier<DailyDemand> demand = demand(demandIn, kind);
    Fields leadIn = in.part("leadTimeDays");
    Lead lead = lead(leadIn);
    if (lead.spreads() && !kind.isEmpty() && !kind.equals("normal")) {
      leadIn.wrong(
          "sd",
          "is above 0, which goes with normal demand only; give outcomes for whole packs, or an"
              + " sd of 0.");
    }
    double review = in.number("reviewDays", Bound.SPAN, 0);
    Fields targetIn = in.part("target");
    boolean fill = targetIn.choice("kind", List.of("cycle", "fill")).equals("fill");
    double level = targetIn.number("value", Bound.INSIDE);
    OptionalDouble quantity = in.optional("orderQuantity", Bound.AMOUNT_ABOVE_0);
    OptionalDouble orderCost = in.optional("orderCost", Bound.AMOUNT);
    OptionalDouble holdingCost = in.optional("holdingCostPerPackYear", Bound.AMOUNT_ABOVE_0);
    int packsPerCase = in.whole("packsPerCase", Bound.COUNT_FROM_1, 1);
    int minimum = in.whole("minimumOrder", Bound.COUNT, 0);
    if (fill && quantity.isEmpty() && (orderCost.isEmpty() || holdingCost.isEmpty())) {
      in.wrong(
          "orderQuantity",
          "is missing; a fill target needs it, or both orderCost and holdingCostPerPackYear.");
    }
    return () -> {
      Target target = fill ? Target.fill(level) : Target.cycle(level);
      Replenishment.Terms terms =
          new Replenishment.Terms(quantity, orderCost, holdingCost, packsPerCase, minimum);
      return of(
          demand.get() instanceof DailyDemand.Normal normal && lead.outcomes().isEmpty()
              ? Replenishment.normal(normal, lead.mean(), lead.sd(), review, target, terms)
              : Replenishment.of(demand.get(), lead.distribution(), review, target, terms));
    };
  }

  private static Supplier<DailyDemand> demand(Fields in, String kind) {
    double mean = in.number("meanPerDay", Bound.AMOUNT);
    boolean spreads = kind.equals("normal") || kind.equals("negative-binomial");
    double sd = 0;
    if (spreads) {
      sd = in.number("sdPerDay", Bound.AMOUNT);
    } else {
      in.ignore("sdPerDay");
    }
    Map<Integer, Double> batches = new TreeMap<>();
    if (kind.equals("compound-poisson")) {
      batches.putAll(batches(in));
    } else {
      in.ignore("batchSizes");
    }
    double spread = sd;
    return () ->
        switch (kind) {
          case "normal" -> new DailyDemand.Normal(mean, spread);
          case "poisson" -> new DailyDemand.Poisson(mean);
          case "negative-binomial" -> new DailyDemand.Overdispersed(mean, spread);
          default -> new DailyDemand.Batches(mean, BatchSizes.of(batches));
        };
  }

  private static Map<Integer, Double> batches(Fields in) {
    Map<Integer, Double> batches = new TreeMap<>();
    List<Double> probabilities = new ArrayList<>();
    for (Fields each : in.entries("batchSizes", 1, MOST_OUTCOMES)) {
      double probability = each.number("probability", Bound.PROBABILITY);
      probabilities.add(probability);
      batches.merge(each.whole("packs", BATCH), probability, (a, b) -> Math.min(1, a + b));
    }
    sumToOne(in, "batchSizes", probabilities);
    return batches;
  }

  private static Lead lead(Fields in) {
    boolean listed = in.has("outcomes");
    if (!listed) {
      return new Lead(in.number("mean", Bound.SPAN), in.number("sd", Bound.SPAN), List.of());
    }
    if (in.has("mean") | in.has("sd")) {
      in.wrong("outcomes", "stands beside mean or sd; give either outcomes or mean and sd.");
    }
    List<LeadTime.Outcome> outcomes = new ArrayList<>();
    List<Double> probabilities = new ArrayList<>();
    for (Fields each : in.entries("outcomes", 1, MOST_OUTCOMES)) {
      double days = each.number("days", Bound.SPAN);
      double probability = each.number("probability", Bound.PROBABILITY);
      outcomes.add(new LeadTime.Outcome(days, probability));
      probabilities.add(probability);
    }
    sumToOne(in, "outcomes", probabilities);
    return new Lead(0, 0, outcomes);
  }

  private static void sumToOne(Fields in, String name, List<Double> probabilities) {
    double sum = probabilities.stream().mapToDouble(Double::doubleValue).sum();
    if (!probabilities.isEmpty() && !(Math.abs(sum - 1) <= SUM_TOLERANCE)) {
      in.wrong(name, "has probabilities that sum to " + sum + ", but must sum to 1.");
    }
  }

  private static ReorderAnswer of(Replenishment answer) {
    return new ReorderAnswer(
        answer.point().meanDemand(),
        answer.point().sdDemand(),
        answer.point().reorderPoint(),
        answer.point().safetyStock(),
        answer.point().chanceOfStockout(),
        answer.point().expectedShortPerCycle(),
        PoolQuestion.orNull(answer.fillRate()),
        PoolQuestion.orNull(answer.economicQuantity()),
        PoolQuestion.orNull(answer.orderQuantity()));
  }
}
