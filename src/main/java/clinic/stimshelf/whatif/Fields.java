package clinic.stimshelf.whatif;

import clinic.stimshelf.whatif.Unfit.Fault;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/**
 * An object of a question, read field by field without any coercion. What is wrong is collected, so
 * that it is all said at once; until then a stand-in takes the place of what was refused.
 */
final class Fields {
  static final int MOST_ENTRIES = 10_000;
  private static final int MOST_FAULTS = 20;
  private static final int MOST_TEXT = 1_000;

  private final JsonNode node;
  private final String path;
  private final List<Fault> faults;

  /** Names that were asked for; the entries of one list share them. */
  private final Set<String> known;

  private final List<Fields> parts = new ArrayList<>();

  private Fields(JsonNode node, String path, List<Fault> faults, Set<String> known) {
    this.node = node;
    this.path = path;
    this.faults = faults;
    this.known = known;
  }

  /**
   * @throws Unfit if it is not an object
   */
  static Fields of(JsonNode body) {
    if (!body.isObject()) {
      throw new Unfit(List.of(new Fault("", "must be a JSON object.")));
    }
    return new Fields(body, "", new ArrayList<>(), new LinkedHashSet<>());
  }

  boolean has(String name) {
    known.add(name);
    return node.has(name);
  }

  double number(String name, Bound bound) {
    return decimal(name, bound).doubleValue();
  }

  double number(String name, Bound bound, double otherwise) {
    return has(name) ? number(name, bound) : otherwise;
  }

  OptionalDouble optional(String name, Bound bound) {
    return has(name) ? OptionalDouble.of(number(name, bound)) : OptionalDouble.empty();
  }

  BigDecimal decimal(String name, Bound bound) {
    known.add(name);
    return decimal(path + name, node.get(name), bound);
  }

  BigDecimal decimal(String name, Bound bound, BigDecimal otherwise) {
    return has(name) ? decimal(name, bound) : otherwise;
  }

  int whole(String name, Bound bound) {
    return decimal(name, bound).intValueExact();
  }

  int whole(String name, Bound bound, int otherwise) {
    return has(name) ? whole(name, bound) : otherwise;
  }

  boolean flag(String name) {
    known.add(name);
    JsonNode value = node.get(name);
    if (value == null || !value.isBoolean()) {
      fault(path + name, value, "true or false");
      return false;
    }
    return value.booleanValue();
  }

  boolean flag(String name, boolean otherwise) {
    return has(name) ? flag(name) : otherwise;
  }

  String text(String name) {
    known.add(name);
    JsonNode value = node.get(name);
    if (value == null
        || !value.isTextual()
        || value.textValue().isBlank()
        || value.textValue().length() > MOST_TEXT) {
      fault(path + name, value, "text of 1 to " + MOST_TEXT + " characters");
      return "";
    }
    return value.textValue();
  }

  /** Text that may be missing or null. */
  Optional<String> optionalText(String name) {
    return has(name) && !node.get(name).isNull() ? Optional.of(text(name)) : Optional.empty();
  }

  /** One of a few words; empty where it is none. */
  String choice(String name, List<String> choices) {
    known.add(name);
    JsonNode value = node.get(name);
    if (value == null || !value.isTextual() || !choices.contains(value.textValue())) {
      fault(path + name, value, "one of " + String.join(", ", choices));
      return "";
    }
    return value.textValue();
  }

  /** An object within; an empty one where it is none. */
  Fields part(String name) {
    known.add(name);
    JsonNode value = node.get(name);
    boolean fits = value != null && value.isObject();
    if (!fits) {
      fault(path + name, value, "an object");
    }
    Fields part =
        new Fields(
            fits ? value : JsonNodeFactory.instance.objectNode(),
            path + name + ".",
            fits ? faults : new ArrayList<>(),
            new LinkedHashSet<>());
    parts.add(part);
    return part;
  }

  /** A list of objects. */
  List<Fields> entries(String name, int least, int most) {
    List<Fields> entries = new ArrayList<>();
    Set<String> ofEach = new LinkedHashSet<>();
    JsonNode list = list(name, least, most);
    for (int i = 0; i < list.size(); i++) {
      String place = path + name + "[" + i + "]";
      if (list.get(i).isObject()) {
        entries.add(new Fields(list.get(i), place + ".", faults, ofEach));
      } else {
        fault(place, list.get(i), "an object");
      }
    }
    parts.addAll(entries);
    return entries;
  }

  /** A list of numbers. */
  double[] numbers(String name, Bound bound, int least, int most) {
    JsonNode list = list(name, least, most);
    double[] numbers = new double[list.size()];
    for (int i = 0; i < numbers.length; i++) {
      numbers[i] = decimal(path + name + "[" + i + "]", list.get(i), bound).doubleValue();
    }
    return numbers;
  }

  /** Refuses entries of a list whose text under a name was there before. */
  static void unique(List<Fields> entries, String name) {
    Set<String> seen = new HashSet<>();
    for (Fields entry : entries) {
      JsonNode value = entry.node.get(name);
      if (value != null && value.isTextual() && !seen.add(value.textValue())) {
        entry.wrong(name, "stands twice in the list, but must be unique.");
      }
    }
  }

  /** A field that does not matter here, whatever it holds, as long as it is JSON. */
  void ignore(String name) {
    known.add(name);
    refuseNonFinite(path + name, node.get(name));
  }

  /** Something is wrong with a field. */
  void wrong(String name, String says) {
    add(path + name, says);
  }

  /**
   * To be called on the whole question once everything was read.
   *
   * @throws Unfit with all that is wrong
   */
  void throwIfWrong() {
    refuseUnknown();
    if (!faults.isEmpty()) {
      throw new Unfit(faults);
    }
  }

  boolean knows(String name) {
    return known.contains(name);
  }

  String first() {
    return known.iterator().next();
  }

  static String shortened(String text) {
    return text.length() <= 60 ? text : text.substring(0, 57) + "…";
  }

  private void refuseUnknown() {
    if (node.size() > 0) {
      node.fieldNames()
          .forEachRemaining(
              name -> {
                if (!known.contains(name)) {
                  add(
                      path + shortened(name),
                      "is not known here; the fields are " + String.join(", ", known) + ".");
                }
              });
    }
    parts.forEach(Fields::refuseUnknown);
  }

  private JsonNode list(String name, int least, int most) {
    known.add(name);
    JsonNode value = node.get(name);
    if (value == null || !value.isArray() || value.size() < least || value.size() > most) {
      fault(path + name, value, "a list of " + least + " to " + most + " entries");
      return JsonNodeFactory.instance.arrayNode();
    }
    return value;
  }

  private BigDecimal decimal(String place, JsonNode value, Bound bound) {
    if (value == null || !value.isNumber() || !isFinite(value)) {
      fault(place, value, bound.words());
      return Bound.STAND_IN;
    }
    BigDecimal number = value.decimalValue();
    if (!bound.allows(number)) {
      fault(place, value, bound.words());
      return Bound.STAND_IN;
    }
    return number;
  }

  private static boolean isFinite(JsonNode number) {
    return !(number.isDouble() || number.isFloat()) || Double.isFinite(number.doubleValue());
  }

  private void refuseNonFinite(String place, JsonNode value) {
    if (value == null) {
      return;
    }
    if (value.isNumber() && !isFinite(value)) {
      add(place, "is no number that JSON knows.");
    }
    value.forEach(inner -> refuseNonFinite(place, inner));
  }

  private void fault(String place, JsonNode value, String allowed) {
    add(
        place,
        value == null
            ? "is missing; it must be " + allowed + "."
            : "is " + shown(value) + ", but must be " + allowed + ".");
  }

  private static String shown(JsonNode value) {
    return switch (value.getNodeType()) {
      case NUMBER, BOOLEAN, NULL -> shortened(value.asText());
      case STRING -> "text";
      case ARRAY -> "a list of " + value.size();
      default -> "an object";
    };
  }

  private void add(String place, String says) {
    if (faults.size() < MOST_FAULTS) {
      faults.add(new Fault(place, says));
    }
  }
}
