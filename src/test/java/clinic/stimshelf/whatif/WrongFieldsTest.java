package clinic.stimshelf.whatif;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** What is wrong with a question is said by the name of its field, all of it at once. */
class WrongFieldsTest {
  private static final ObjectMapper JSON = new ObjectMapper();

  /** Numbers of the examples, each in its place. */
  static Stream<String[]> numbers() {
    List<String[]> places = new ArrayList<>();
    Asked.CALLS.forEach((call, asked) -> collect(call, "", parse(asked.example()), places));
    return places.stream();
  }

  private static void collect(String call, String path, JsonNode node, List<String[]> places) {
    if (node.isNumber()) {
      places.add(new String[] {call, path});
    }
    if (node.isObject()) {
      node.properties()
          .forEach(
              field ->
                  collect(
                      call,
                      path.isEmpty() ? field.getKey() : path + "." + field.getKey(),
                      field.getValue(),
                      places));
    }
    for (int i = 0; node.isArray() && i < node.size(); i++) {
      collect(call, path + "[" + i + "]", node.get(i), places);
    }
  }

  @ParameterizedTest(name = "{0} {1}")
  @MethodSource("numbers")
  void a_number_is_never_null_text_true_negative_endless_or_over_its_limit(
      String call, String place) {
    for (String token :
        List.of("null", "\"3\"", "\"\"", "true", "-1", "NaN", "Infinity", "1e10", "{}", "[1]")) {
      assertThat(faults(call, with(call, place, token)))
          .as(call + " with " + token + " in " + place)
          .anyMatch(fault -> fault.field().equals(place));
    }
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "dose, padsPerSession, 3.0",
    "dose, sessionsPerDay, 3.0",
    "dose, daysPerWeek, 3.0",
    "dose, weeks, 3.0",
    "dose, padsPerPack, 3.0",
    "pool, units, 3.0",
    "return-curve, observations[0].count, 3.0",
    "pad-life, observations[0].count, 3.0",
    "reorder, packsPerCase, 3.0",
    "availability, freeNow, 3.0",
    "availability, ahead, 3.0",
    "lots, lots[1].failures, 3.0",
    "lots, lots[1].uses, 3e2",
    "rate, done, 3.0",
    "rate, of, 3e2",
    "unit-plan, units[0].channels, 3.0",
    "unit-plan, treatments[1].channels, 3.0"
  })
  void a_fraction_is_refused_where_a_whole_number_is_meant(
      String call, String place, String whole) {
    assertThat(faults(call, with(call, place, "2.5")))
        .anyMatch(fault -> fault.field().equals(place) && fault.says().contains("a whole number"));
    assertThatCode(() -> Asked.CALLS.get(call).ask(with(call, place, whole)))
        .doesNotThrowAnyException();
  }

  @ParameterizedTest(name = "{0} {1}")
  @CsvSource({
    "dose, onSeconds",
    "dose, minutes",
    "dose, frequencyHz",
    "dose, usesPerPad",
    "dose, weeks",
    "pool, turnedAwayTarget",
    "pad-life, planningReliability",
    "return-curve, observations[0].count",
    "reorder, target.value",
    "reorder, holdingCostPerPackYear",
    "reorder, packsPerCase",
    "lots, lots[0].uses",
    "rate, of",
    "unit-plan, units[0].channels"
  })
  void zero_is_refused_where_it_makes_no_sense(String call, String place) {
    assertThat(faults(call, with(call, place, "0"))).anyMatch(fault -> fault.field().equals(place));
  }

  @ParameterizedTest(name = "{0} {1} {2}")
  @CsvSource({
    "pad-life, planningReliability, 1",
    "rate, confidence, 1",
    "rate, confidence, 0",
    "reorder, target.value, 1",
    "reorder, target.value, 0.99999999999999999999",
    "pool, turnedAwayTarget, 1.1",
    "pool, turnedAwayTarget, 1e-400",
    "pool, units, 1001",
    "pool, meanDaysAway, 100001",
    "dose, daysPerWeek, 8",
    "dose, usesPerPad, 100001",
    "dose, minutes, 0.9",
    "forecast, alpha, 1.5",
    "lots, lots[0].failures, 401",
    "rate, done, 264",
    "return-curve, observations[0].count, 1000001"
  })
  void what_lies_outside_is_refused(String call, String place, String token) {
    assertThat(faults(call, with(call, place, token)))
        .anyMatch(fault -> fault.field().equals(place));
  }

  @Test
  void a_field_that_must_be_there_is_missed_by_its_name() {
    Map<String, List<String>> required =
        Map.of(
            "dose", List.of("onSeconds", "frequencyHz", "weeks", "usesPerPad"),
            "pool", List.of("requestsPerWeek", "units", "turnedAwayTarget"),
            "return-curve", List.of("observations"),
            "pad-life", List.of("observations", "planningReliability"),
            "reorder", List.of("demand", "leadTimeDays", "target"),
            "availability", List.of("freeNow", "ahead", "chancesBack"),
            "lots", List.of("lots", "alpha"),
            "rate", List.of("done", "of"),
            "unit-plan", List.of("units", "treatments"),
            "forecast", List.of("series", "method", "alpha"));
    required.forEach(
        (call, fields) ->
            assertThat(faults(call, "{}").stream().map(Unfit.Fault::field).toList())
                .as(call)
                .containsAll(fields));
  }

  @Test
  void minutes_and_contractions_exclude_one_another() {
    String both = with("dose", "contractions", "10");
    assertThat(faults("dose", both)).extracting(Unfit.Fault::field).contains("contractions");
    assertThat(faults("dose", without("dose", "minutes")))
        .extracting(Unfit.Fault::field)
        .contains("contractions");
  }

  @Test
  void what_stands_twice_is_refused() {
    assertThat(faults("lots", with("lots", "lots[1].lot", "\"A1\"")))
        .extracting(Unfit.Fault::field)
        .contains("lots[1].lot");
    assertThat(faults("unit-plan", with("unit-plan", "units[1].id", "\"U1\"")))
        .extracting(Unfit.Fault::field)
        .contains("units[1].id");
    assertThat(faults("unit-plan", with("unit-plan", "treatments[1].id", "\"T1\"")))
        .extracting(Unfit.Fault::field)
        .contains("treatments[1].id");
    assertThat(faults("rate", "{\"done\": 1, \"of\": 2, \"of\": 3}")).isNotEmpty();
  }

  @Test
  void times_are_local_and_end_after_they_start() {
    for (String token : List.of("\"2026-03-04T09:00Z\"", "\"09:00\"", "\"2026-02-30T09:00\"")) {
      assertThat(faults("unit-plan", with("unit-plan", "treatments[0].start", token)))
          .extracting(Unfit.Fault::field)
          .contains("treatments[0].start");
    }
    assertThat(faults("unit-plan", with("unit-plan", "treatments[0].end", "\"2026-03-04T09:00\"")))
        .extracting(Unfit.Fault::field)
        .contains("treatments[0].end");
  }

  @Test
  void a_spread_lead_time_goes_with_normal_demand_only() {
    String spread = with("reorder", "leadTimeDays", "{\"mean\": 5.5, \"sd\": 1}");
    assertThat(faults("reorder", spread))
        .extracting(Unfit.Fault::field)
        .contains("leadTimeDays.sd");
    assertThatCode(
            () ->
                Asked.CALLS
                    .get("reorder")
                    .ask(with("reorder", "leadTimeDays", "{\"mean\": 5.5, \"sd\": 0}")))
        .doesNotThrowAnyException();
  }

  @Test
  void probabilities_sum_to_one() {
    assertThat(faults("reorder", with("reorder", "leadTimeDays.outcomes[0].probability", "0.4")))
        .extracting(Unfit.Fault::field)
        .contains("leadTimeDays.outcomes");
  }

  @Test
  void a_fill_target_needs_an_order_quantity() {
    String body =
        "{\"demand\": {\"kind\": \"poisson\", \"meanPerDay\": 1}, \"leadTimeDays\": {\"mean\": 5,"
            + " \"sd\": 0}, \"target\": {\"kind\": \"fill\", \"value\": 0.9}}";
    assertThat(faults("reorder", body)).extracting(Unfit.Fault::field).contains("orderQuantity");
  }

  @Test
  void what_does_not_matter_to_the_kind_may_stand_there() {
    String body = with("reorder", "demand.sdPerDay", "null");
    assertThatCode(() -> Asked.CALLS.get("reorder").ask(body)).doesNotThrowAnyException();
  }

  @Test
  void a_name_that_is_not_known_is_said_with_those_that_are() {
    assertThat(faults("pool", with("pool", "unit", "3")))
        .anyMatch(fault -> fault.field().equals("unit") && fault.says().contains("units"));
  }

  @Test
  void too_long_a_load_or_a_list_is_refused() {
    assertThat(faults("pool", with("pool", "requestsPerWeek", "1e6")))
        .extracting(Unfit.Fault::field)
        .contains("requestsPerWeek");
    String many = "[" + "0.5,".repeat(10_000) + "0.5]";
    assertThat(faults("availability", with("availability", "chancesBack", many)))
        .extracting(Unfit.Fault::field)
        .contains("chancesBack");
  }

  @Test
  void what_is_not_json_is_refused_where_it_breaks() {
    for (String body : List.of("", "{", "[]", "3", "null", "{} {}", "{\"done\": 03, \"of\": 3}")) {
      assertThat(faults("rate", body)).as(body).isNotEmpty();
    }
    assertThat(faults("rate", "{\"done\": 3s}")).extracting(Unfit.Fault::field).contains("done");
    assertThat(faults("rate", "[".repeat(100_000))).isNotEmpty();
    assertThat(faults("rate", "{\"done\": 1, \"of\": 1" + "0".repeat(2_000) + "}")).isNotEmpty();
  }

  private static List<Unfit.Fault> faults(String call, String body) {
    Unfit unfit = catchThrowableOfType(Unfit.class, () -> Asked.CALLS.get(call).ask(body));
    assertThat(unfit).as(call + " " + body).isNotNull();
    return unfit.faults();
  }

  private static String without(String call, String field) {
    ObjectNode tree = (ObjectNode) parse(Asked.CALLS.get(call).example());
    tree.remove(field);
    return tree.toString();
  }

  /** The call's example with a token in a place such as {@code lots[1].uses}. */
  private static String with(String call, String place, String token) {
    JsonNode tree = parse(Asked.CALLS.get(call).example());
    String[] steps = place.replace("[", ".#").replace("]", "").split("\\.");
    JsonNode at = tree;
    for (int i = 0; i < steps.length - 1; i++) {
      at = steps[i].startsWith("#") ? at.get(index(steps[i])) : at.get(steps[i]);
    }
    String last = steps[steps.length - 1];
    if (last.startsWith("#")) {
      ((ArrayNode) at).set(index(last), "@");
    } else {
      ((ObjectNode) at).put(last, "@");
    }
    return tree.toString().replace("\"@\"", token);
  }

  private static int index(String step) {
    return Integer.parseInt(step.substring(1));
  }

  private static JsonNode parse(String json) {
    try {
      return JSON.readTree(json);
    } catch (java.io.IOException impossible) {
      throw new java.io.UncheckedIOException(impossible);
    }
  }
}
