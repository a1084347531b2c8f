package clinic.stimshelf.whatif;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Function;

/** The calculators by the names of their calls, each with a question that it answers. */
final class Asked {
  /** A call as it is made without HTTP. */
  record Call(Function<JsonNode, ?> answer, String example) {

    Object ask(String body) {
      return answer.apply(Body.read(body.getBytes(StandardCharsets.UTF_8)));
    }
  }

  static final Map<String, Call> CALLS = new LinkedHashMap<>();

  static {
    CALLS.put("dose", new Call(DoseQuestion::answer, DoseQuestion.EXAMPLE));
    CALLS.put("pool", new Call(PoolQuestion::answer, PoolQuestion.EXAMPLE));
    CALLS.put("return-curve", new Call(ReturnsQuestion::answer, ReturnsQuestion.EXAMPLE));
    CALLS.put("pad-life", new Call(PadLifeQuestion::answer, PadLifeQuestion.EXAMPLE));
    CALLS.put("reorder", new Call(ReorderQuestion::answer, ReorderQuestion.EXAMPLE));
    CALLS.put("availability", new Call(AvailabilityQuestion::answer, AvailabilityQuestion.EXAMPLE));
    CALLS.put("lots", new Call(LotsQuestion::answer, LotsQuestion.EXAMPLE));
    CALLS.put("rate", new Call(RateQuestion::answer, RateQuestion.EXAMPLE));
    CALLS.put("unit-plan", new Call(UnitPlanQuestion::answer, UnitPlanQuestion.EXAMPLE));
    CALLS.put("forecast", new Call(ForecastQuestion::answer, ForecastQuestion.EXAMPLE));
  }

  private Asked() {}
}
