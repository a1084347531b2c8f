package clinic.stimshelf.whatif;

import clinic.stimshelf.web.Form;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Function;

/**
 * A question as a person types it. It becomes the same JSON that a script sends, so that page and
 * call have one calculator and one set of limits.
 */
final class Typed {
  /** A share in percent, without its ends. */
  static final Bound PERCENT =
      new Bound(BigDecimal.ZERO, true, BigDecimal.valueOf(100), true, false);

  private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private final Form form;
  private final ObjectNode question = JSON.objectNode();
  private final Map<String, String> labels = new LinkedHashMap<>();

  Typed(Form form) {
    this.form = form;
  }

  ObjectNode question() {
    return question;
  }

  /** A number that must be there. */
  Typed number(String name, String label, Bound bound) {
    if (!form.has(name)) {
      form.wrong(name, label + " is missing: " + bound.words() + ".");
    }
    return optional(name, label, bound);
  }

  /** A number that may be left empty. */
  Typed optional(String name, String label, Bound bound) {
    labels.put(name, label);
    BigDecimal number = read(name, label, bound);
    if (number != null) {
      question.set(name, JSON.numberNode(number));
    }
    return this;
  }

  /** Percent, which become a share; null if they cannot be read. */
  BigDecimal share(String name, String label) {
    if (!form.has(name)) {
      form.wrong(name, label + " is missing: " + PERCENT.words() + ".");
    }
    BigDecimal percent = read(name, label, PERCENT);
    return percent == null ? null : percent.divide(HUNDRED);
  }

  BigDecimal read(String name, String label, Bound bound) {
    return form.read(
        name, BigDecimal::new, bound::allows, label + " must be " + bound.words() + ".");
  }

  /**
   * Lines of a text, each an entry of a list.
   *
   * @param entry reads the words of a line; an IllegalArgumentException says what is wrong with it
   * @param such how a line looks
   */
  Typed lines(
      String name, String list, String label, String such, Function<String[], JsonNode> entry) {
    labels.put(list, label);
    ArrayNode entries = question.putArray(list);
    int at = 0;
    for (String line : form.value(name).split("\\R")) {
      at++;
      if (line.isBlank()) {
        continue;
      }
      try {
        entries.add(entry.apply(line.strip().split("[\\s,;]+")));
      } catch (IllegalArgumentException unreadable) {
        form.wrong(name, label + ", line " + at + ": each line is " + such + ".");
        return this;
      }
    }
    if (entries.isEmpty()) {
      form.wrong(name, label + " are missing: each line is " + such + ".");
    } else if (entries.size() > Fields.MOST_ENTRIES) {
      form.wrong(name, label + " are too many: at most " + Fields.MOST_ENTRIES + " lines.");
    }
    return this;
  }

  /**
   * The answer, or null where what was typed cannot be used; the form then says why.
   *
   * @param fields names of the form by those of the question where they differ
   */
  <T> T answer(Function<JsonNode, T> calculator, Map<String, String> fields) {
    if (!form.ok()) {
      return null;
    }
    try {
      return calculator.apply(question);
    } catch (Unfit unfit) {
      for (Unfit.Fault fault : unfit.faults()) {
        String top = fault.field().split("[.\\[]", 2)[0];
        String label = labels.getOrDefault(top, "This");
        form.wrong(
            fields.getOrDefault(top, top), label + place(fault.field()) + " " + fault.says());
      }
      return null;
    }
  }

  /** Of an entry, which one it is. */
  private static String place(String field) {
    int open = field.indexOf('[');
    return open < 0
        ? ""
        : ", entry " + (Integer.parseInt(field.substring(open + 1, field.indexOf(']'))) + 1);
  }
}
