package clinic.stimshelf.whatif;

import clinic.stimshelf.calc.rates.Proportion;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.Map;
import java.util.function.Supplier;

/** A proportion and how sure it is. */
final class RateQuestion {
  static final String EXAMPLE =
      """
      {"done": 81, "of": 263}""";

  private static final double USUAL = 0.95;

  private RateQuestion() {}

  /** The share and the limits of its interval. */
  record RateAnswer(double rate, double low, double high) {}

  static RateAnswer answer(JsonNode body) {
    return Question.answer(body, RateQuestion::ask, Map.of());
  }

  private static Supplier<RateAnswer> ask(Fields in) {
    int done = in.whole("done", Bound.COUNT);
    int of = in.whole("of", Bound.COUNT_FROM_1);
    if (done > of) {
      in.wrong("done", "is " + done + ", but must be at most “of”, " + of + ".");
    }
    double confidence = in.number("confidence", Bound.INSIDE, USUAL);
    return () -> {
      Proportion share = Proportion.of(done, of, confidence);
      return new RateAnswer(share.rate(), share.low(), share.high());
    };
  }
}
