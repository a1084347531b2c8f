package clinic.stimshelf.whatif;

import clinic.stimshelf.calc.pool.Availability;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;

/** How sure a unit is by a day. */
final class AvailabilityQuestion {
  static final String EXAMPLE =
      """
      {"freeNow": 1, "ahead": 2, "chancesBack": [0.9, 0.75, 0.4]}""";

  private AvailabilityQuestion() {}

  /** The chance of a unit, and of 0, 1, 2 … units back. */
  record AvailabilityAnswer(double chance, List<Double> distribution) {}

  static AvailabilityAnswer answer(JsonNode body) {
    return Question.answer(body, AvailabilityQuestion::ask, Map.of());
  }

  private static Supplier<AvailabilityAnswer> ask(Fields in) {
    int freeNow = in.whole("freeNow", Bound.COUNT);
    int ahead = in.whole("ahead", Bound.COUNT);
    double[] chances = in.numbers("chancesBack", Bound.PROBABILITY, 0, Fields.MOST_ENTRIES);
    return () -> {
      Availability there = Availability.of(freeNow, ahead, Arrays.stream(chances).boxed().toList());
      return new AvailabilityAnswer(there.chance(), there.distribution());
    };
  }
}
