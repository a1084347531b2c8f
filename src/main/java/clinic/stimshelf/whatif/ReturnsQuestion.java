package clinic.stimshelf.whatif;

import clinic.stimshelf.calc.wear.Life;
import clinic.stimshelf.calc.wear.ProductLimit;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;

/** How late units come home. */
final class ReturnsQuestion {
  static final String EXAMPLE =
      """
      {"observations": [{"days": 42, "returned": true, "count": 5}, {"days": 45, "returned": true}, \
      {"days": 49, "returned": true, "count": 2}, {"days": 20, "returned": false, "count": 3}]}""";

  static final Bound ALIKE = Bound.whole(1, 1_000_000);

  private ReturnsQuestion() {}

  /**
   * The share still out after each day on which one came back; the first with half of them back.
   */
  record ReturnsAnswer(List<ReturnsPoint> curve, Double medianDays) {}

  /** The error is null where none is still out. */
  record ReturnsPoint(
      double days, long atRisk, long returned, double stillOut, Double standardError) {}

  static ReturnsAnswer answer(JsonNode body) {
    return Question.answer(body, ReturnsQuestion::ask, Map.of());
  }

  private static Supplier<ReturnsAnswer> ask(Fields in) {
    List<Life> lives = lives(in, "days", "returned");
    return () -> of(ProductLimit.of(lives));
  }

  /** One observation each: how long, and whether it ended then. */
  static List<Life> lives(Fields in, String time, String ended) {
    return in.entries("observations", 1, Fields.MOST_ENTRIES).stream()
        .map(
            each ->
                new Life(
                    each.number(time, Bound.SPAN), each.flag(ended), each.whole("count", ALIKE, 1)))
        .toList();
  }

  private static ReturnsAnswer of(ProductLimit curve) {
    return new ReturnsAnswer(
        curve.points().stream()
            .map(
                point ->
                    new ReturnsPoint(
                        point.time(),
                        point.atRisk(),
                        point.ended(),
                        point.surviving(),
                        point.standardError()))
            .toList(),
        PoolQuestion.orNull(curve.median()));
  }
}
