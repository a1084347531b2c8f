package clinic.stimshelf.whatif;

import clinic.stimshelf.calc.wear.Life;
import clinic.stimshelf.calc.wear.ProductLimit;
import clinic.stimshelf.calc.wear.Weibull;
import com.fasterxml.jackson.databind.JsonNode;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;

/** How many sessions a pad really lasts. */
final class PadLifeQuestion {
  static final String EXAMPLE =
      """
      {"observations": [{"uses": 14, "worn": true, "count": 2}, {"uses": 19, "worn": true}, \
      {"uses": 23, "worn": true, "count": 3}, {"uses": 20, "worn": false, "count": 6}], \
      "planningReliability": 0.8}""";

  /** What the fit calls its own; it is the observations that lead there. */
  private static final Map<String, String> OWN_NAMES =
      Map.of("shape", "observations", "scale", "observations");

  private PadLifeQuestion() {}

  /** The fit and its planning uses are null where there is none. */
  record PadLifeAnswer(List<PadLifePoint> curve, WeibullFit weibull, BigInteger planningUses) {}

  /** The error is null where none is still good. */
  record PadLifePoint(
      double uses, long atRisk, long worn, double stillGood, Double standardError) {}

  /** Lives by maximum likelihood. */
  record WeibullFit(double shape, double scale, double logLikelihood) {}

  static PadLifeAnswer answer(JsonNode body) {
    return Question.answer(body, PadLifeQuestion::ask, OWN_NAMES);
  }

  private static Supplier<PadLifeAnswer> ask(Fields in) {
    List<Life> lives = ReturnsQuestion.lives(in, "uses", "worn");
    double reliability = in.number("planningReliability", Bound.INSIDE);
    return () -> of(ProductLimit.of(lives), Weibull.fit(lives), reliability);
  }

  private static PadLifeAnswer of(
      ProductLimit curve, Optional<Weibull.Fit> fit, double reliability) {
    return new PadLifeAnswer(
        curve.points().stream()
            .map(
                point ->
                    new PadLifePoint(
                        point.time(),
                        point.atRisk(),
                        point.ended(),
                        point.surviving(),
                        point.standardError()))
            .toList(),
        fit.map(
                it ->
                    new WeibullFit(it.weibull().shape(), it.weibull().scale(), it.logLikelihood()))
            .orElse(null),
        fit.map(it -> BigDecimal.valueOf(it.weibull().planningUses(reliability)).toBigInteger())
            .orElse(null));
  }
}
