package clinic.stimshelf.whatif;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.whatif.Unfit.Fault;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Supplier;

/** One of the calculators: reads what is asked, all faults at once, and computes the answer. */
final class Question {
  private static final ObjectMapper JSON = new ObjectMapper();

  private Question() {}

  /**
   * @param ask reads every field and returns what computes the answer
   * @param ownNames fields of the question by the names that the calculation has for them
   * @throws Unfit naming each field that is wrong
   */
  static <T> T answer(
      JsonNode body, Function<Fields, Supplier<T>> ask, Map<String, String> ownNames) {
    Fields in = Fields.of(body);
    Supplier<T> computes = ask.apply(in);
    in.throwIfWrong();
    try {
      return finite(computes.get(), in);
    } catch (BadInput refused) {
      throw unfit(in, ownNames.getOrDefault(refused.field(), refused.field()), refused);
    }
  }

  private static Unfit unfit(Fields in, String field, BadInput refused) {
    String known = in.knows(field.split("[.\\[]", 2)[0]) ? field : in.first();
    String own = refused.field() + " ";
    String message = refused.getMessage();
    return new Unfit(
        List.of(
            new Fault(
                known,
                known.equals(refused.field()) && message.startsWith(own)
                    ? message.substring(own.length())
                    : "cannot be used: " + message)));
  }

  private static <T> T finite(T answer, Fields in) {
    if (!isFinite(JSON.valueToTree(answer))) {
      throw new Unfit(
          List.of(
              new Fault(
                  in.first(),
                  "cannot be used: an answer would not be a finite number; use less extreme"
                      + " numbers.")));
    }
    return answer;
  }

  private static boolean isFinite(JsonNode node) {
    if (node.isDouble()) {
      return Double.isFinite(node.doubleValue());
    }
    for (JsonNode inner : node) {
      if (!isFinite(inner)) {
        return false;
      }
    }
    return true;
  }
}
