package clinic.stimshelf.whatif;

import clinic.stimshelf.calc.demand.Pattern;
import clinic.stimshelf.calc.demand.SlowDemand;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Supplier;

/** Slow-moving demand. */
final class ForecastQuestion {
  static final String EXAMPLE =
      """
      {"series": [0, 2, 0, 1, 0, 0, 0, 3, 0, 0, 1, 0], "method": "sba", "alpha": 0.1}""";

  private static final List<String> METHODS = List.of("croston", "sba", "tsb", "ses");

  private ForecastQuestion() {}

  /** Forecasts are null until a demand was seen, figures of the pattern where there are too few. */
  record ForecastAnswer(
      List<Double> fitted,
      Double forecast,
      Double meanInterval,
      Double squaredVariation,
      String pattern) {}

  static ForecastAnswer answer(JsonNode body) {
    return Question.answer(body, ForecastQuestion::ask, Map.of());
  }

  private static Supplier<ForecastAnswer> ask(Fields in) {
    double[] series = in.numbers("series", Bound.AMOUNT, 1, Fields.MOST_ENTRIES);
    String method = in.choice("method", METHODS);
    double alpha = in.number("alpha", Bound.PROBABILITY);
    double beta = in.number("beta", Bound.PROBABILITY, alpha);
    return () ->
        of(
            switch (method) {
              case "croston" -> SlowDemand.croston(alpha, alpha, series);
              case "sba" -> SlowDemand.sba(alpha, alpha, series);
              case "tsb" -> SlowDemand.tsb(alpha, beta, series);
              default -> SlowDemand.ses(alpha, series);
            },
            Pattern.of(series));
  }

  private static ForecastAnswer of(SlowDemand slow, Pattern pattern) {
    return new ForecastAnswer(
        slow.fitted(),
        PoolQuestion.orNull(slow.forecast()),
        pattern.meanInterval(),
        pattern.squaredVariation(),
        pattern.kind().map(kind -> kind.name().toLowerCase(Locale.ROOT)).orElse(null));
  }
}
