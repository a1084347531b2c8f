package clinic.stimshelf.review;

import clinic.stimshelf.calc.consumption.Cause;
import clinic.stimshelf.calc.consumption.Statement;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * The answer in a sentence, and each step in words.
 *
 * @param lead what weighed most
 */
record ReviewWords(String headline, String lead, List<Step> steps) {

  /** A step with what opens under it. */
  record Step(
      String label,
      String meaning,
      BigDecimal packs,
      BigDecimal cost,
      List<ConsumptionView.Reason> reasons) {}

  static ReviewWords of(ConsumptionView view, String currency) {
    Statement.Column cost = view.total().cost();
    List<Step> steps = new ArrayList<>();
    for (Cause cause : Cause.values()) {
      steps.add(
          new Step(
              label(cause),
              meaning(cause, view.before() == null),
              view.total().packs().part(cause),
              cost.part(cause),
              view.reasons().getOrDefault(cause, List.of())));
    }
    return new ReviewWords(headline(view, currency), lead(cost, currency), steps);
  }

  private static String headline(ConsumptionView view, String currency) {
    Statement.Column cost = view.total().cost();
    if (cost.before().signum() == 0 && cost.now().signum() == 0) {
      return "No packs were planned or used in these days";
    }
    int more = cost.difference().signum();
    String than = view.before() == null ? "planned" : "before";
    String used = "Programs used packs for " + Amounts.in(currency, cost.now());
    return more == 0
        ? used + ", as much as " + than
        : used
            + ", "
            + Amounts.in(currency, cost.difference().abs())
            + (more > 0 ? " more than " : " less than ")
            + than;
  }

  private static String lead(Statement.Column cost, String currency) {
    List<Cause> byWeight =
        Arrays.stream(Cause.values())
            .filter(cause -> cost.part(cause).signum() != 0)
            .sorted(Comparator.comparing((Cause cause) -> cost.part(cause).abs()).reversed())
            .toList();
    if (byWeight.isEmpty()) {
      return "Once packs are given out for signed programs, it stands here where they went.";
    }
    Cause first = byWeight.get(0);
    String most =
        "What weighed most: " + label(first) + ", " + more(currency, cost.part(first)) + ".";
    if (byWeight.size() == 1) {
      return most;
    }
    Cause second = byWeight.get(1);
    return most + " Then: " + label(second) + ", " + more(currency, cost.part(second)) + ".";
  }

  private static String more(String currency, BigDecimal amount) {
    return (amount.signum() > 0 ? "+" : "") + Amounts.in(currency, amount);
  }

  private static String label(Cause cause) {
    return switch (cause) {
      case SESSIONS -> "sessions";
      case WEAR -> "wear";
      case WASTE -> "waste";
      case PRICE -> "price";
    };
  }

  private static String meaning(Cause cause, boolean plan) {
    return switch (cause) {
      case SESSIONS ->
          plan
              ? "Sessions done instead of planned, at the planned uses of a set."
              : "More or fewer sessions than before, at the uses a set had before.";
      case WEAR ->
          plan
              ? "Packs beyond what the sessions done are worth at the planned uses: sets that"
                  + " lasted shorter, and packs that stand unopened at a home."
              : "Packs beyond what the sessions done would have taken before.";
      case WASTE -> "Sets lost or thrown away early, as far as they had uses left.";
      case PRICE ->
          plan
              ? "Prices paid instead of the list as it stood on the first day."
              : "Prices paid now instead of then.";
    };
  }
}
