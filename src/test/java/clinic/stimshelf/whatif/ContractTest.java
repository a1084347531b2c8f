package clinic.stimshelf.whatif;

import static clinic.stimshelf.calc.Checks.asPrinted;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.Checks;
import clinic.stimshelf.calc.Checks.Row;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The calls answer with the figures of the check files, whose README names their sources. */
class ContractTest {
  private static final ObjectMapper JSON = new ObjectMapper();

  static Stream<Row> erlangB() {
    return Checks.rows("01_erlang_b_grid.csv").stream()
        .filter(row -> row.whole("servers_N") <= 1_000)
        .filter(row -> row.number("offered_load_A_erlang") <= 5_000);
  }

  @ParameterizedTest
  @MethodSource("erlangB")
  void pool_turns_away_by_erlang_b(Row row) {
    JsonNode answer = pool(row.number("offered_load_A_erlang"), row.whole("servers_N"), 1);
    assertThat(answer.get("turnedAway").doubleValue())
        .isCloseTo(
            row.number("erlang_B_blocking"), relative(row.number("erlang_B_blocking"), 1e-12));
  }

  static Stream<Row> erlangC() {
    return Checks.rows("01_erlang_c_grid.csv").stream();
  }

  @ParameterizedTest
  @MethodSource("erlangC")
  void pool_makes_wait_by_erlang_c(Row row) {
    double load = row.number("offered_load_A_erlang");
    JsonNode answer = pool(load, row.whole("servers_N"), 1);
    double waits = row.number("erlang_C_prob_wait");
    assertThat(answer.get("mustWait").doubleValue()).isCloseTo(waits, relative(waits, 1e-12));
    // With a request a day the load is the length of a loan in days.
    double wait = load * row.number("mean_wait_all_Wq_in_service_times");
    assertThat(answer.get("meanWaitDays").doubleValue()).isCloseTo(wait, relative(wait, 1e-12));
  }

  static Stream<Row> leastUnits() {
    return Checks.rows("01_erlang_b_min_servers.csv").stream();
  }

  @ParameterizedTest
  @MethodSource("leastUnits")
  void pool_finds_the_fewest_units_and_draws_three_beyond(Row row) {
    JsonNode answer = pool(row.number("offered_load_A"), 0, row.number("target_blocking"));
    int fewest = row.whole("min_servers_N");
    assertThat(answer.get("unitsForTarget").intValue()).isEqualTo(fewest);
    assertThat(answer.get("curve")).hasSize(fewest + 4);
    assertThat(answer.get("curve").get(fewest).get("turnedAway").doubleValue())
        .isCloseTo(row.number("blocking_at_N"), relative(row.number("blocking_at_N"), 1e-12));
    assertThat(answer.get("mustWait").isNull()).isTrue();
    assertThat(answer.get("meanWaitDays").isNull()).isTrue();
  }

  /** Freireich et al. 1963, the arm with 6-MP; the file says how far it was confirmed. */
  @Test
  void return_curve_is_the_product_limit_estimate() {
    String observations =
        Checks.rows("04_km_6mp_data.csv").stream()
            .filter(row -> row.text("arm").equals("6MP"))
            .map(
                row ->
                    json(
                        "{'days': %s, 'returned': %s}", row.text("weeks"), row.whole("event") == 1))
            .collect(Collectors.joining(","));
    JsonNode answer = ask("return-curve", json("{'observations': [%s]}", observations));
    List<Row> rows =
        Checks.rows("04_km_6mp.csv").stream()
            .filter(row -> row.text("dataset").startsWith("6-MP arm"))
            .filter(row -> row.whole("n_event") > 0)
            .toList();
    assertThat(answer.get("curve")).hasSameSizeAs(rows);
    for (int i = 0; i < rows.size(); i++) {
      JsonNode point = answer.get("curve").get(i);
      Row row = rows.get(i);
      assertThat(point.get("days").doubleValue()).isEqualTo(row.number("time"));
      assertThat(point.get("atRisk").intValue()).isEqualTo(row.whole("n_risk"));
      assertThat(point.get("returned").intValue()).isEqualTo(row.whole("n_event"));
      assertThat(point.get("stillOut").doubleValue())
          .isCloseTo(row.number("surv"), asPrinted(row.text("surv")));
      assertThat(point.get("standardError").doubleValue())
          .isCloseTo(row.number("greenwood_se"), asPrinted(row.text("greenwood_se")));
    }
    assertThat(answer.get("medianDays").doubleValue()).isEqualTo(23);
  }

  /** NIST/SEMATECH e-Handbook 8.4.1.3; held against the exact maximum, not the printed stop. */
  @Test
  void pad_life_fits_a_weibull_by_maximum_likelihood() {
    String observations =
        Checks.rows("05_weibull_data.csv").stream()
            .filter(row -> row.text("id").equals("W1"))
            .map(
                row ->
                    json(
                        "{'uses': %s, 'worn': %s, 'count': %s}",
                        row.text("time"), row.whole("event") == 1, row.text("count")))
            .collect(Collectors.joining(","));
    JsonNode fit =
        ask("pad-life", json("{'observations': [%s], 'planningReliability': 0.9}", observations));
    for (String quantity : List.of("shape", "scale")) {
      double exact = weibull(quantity);
      assertThat(fit.get("weibull").get(quantity).doubleValue())
          .isCloseTo(exact, relative(exact, 1e-9));
    }
    double b10 = weibull("scale") * Math.pow(-Math.log(0.9), 1 / weibull("shape"));
    assertThat(fit.get("planningUses").doubleValue()).isEqualTo(Math.floor(b10));
  }

  private static double weibull(String quantity) {
    return Checks.rows("05_weibull_mle.csv").stream()
        .filter(row -> row.text("id").equals("W1") && row.text("quantity").equals(quantity))
        .findFirst()
        .orElseThrow()
        .number("computed");
  }

  @Test
  void pad_life_without_a_fit_says_null() {
    JsonNode answer =
        ask(
            "pad-life",
            "{\"observations\": [{\"uses\": 20, \"worn\": true, \"count\": 9}],"
                + " \"planningReliability\": 0.9}");
    assertThat(answer.get("weibull").isNull()).isTrue();
    assertThat(answer.get("planningUses").isNull()).isTrue();
    assertThat(answer.get("curve").get(0).get("standardError").isNull()).isTrue();
  }

  /** Stevenson 2021, ch. 12 example 8: mean 50, sd 5, risk 3 %. */
  @Test
  void reorder_under_normal_demand() {
    JsonNode answer =
        ask(
            "reorder",
            json(
                "{'demand': {'kind': 'normal', 'meanPerDay': 50, 'sdPerDay': 5}, 'leadTimeDays':"
                    + " {'mean': 1, 'sd': 0}, 'target': {'kind': 'cycle', 'value': 0.97}}"));
    assertThat(answer.get("reorderPoint").doubleValue()).isCloseTo(59.40, within(0.005));
    assertThat(answer.get("safetyStock").doubleValue()).isCloseTo(9.40, within(0.005));
    assertThat(answer.get("fillRate").isNull()).isTrue();
    assertThat(answer.get("orderQuantity").isNull()).isTrue();
    assertThat(answer.get("economicOrderQuantity").isNull()).isTrue();
  }

  static Stream<Row> discrete() {
    return Checks.rows("02_discrete_reorder_points.csv").stream();
  }

  @ParameterizedTest
  @MethodSource("discrete")
  void reorder_for_whole_packs(Row row) {
    boolean poisson = row.text("distribution").equals("poisson");
    JsonNode answer =
        ask(
            "reorder",
            json(
                "{'demand': {'kind': '%s', 'meanPerDay': %s%s}, 'leadTimeDays': {'mean': 1, 'sd':"
                    + " 0}, 'target': {'kind': 'cycle', 'value': %s}}",
                poisson ? "poisson" : "negative-binomial",
                row.text("mean"),
                poisson ? "" : ", \"sdPerDay\": " + Math.sqrt(row.number("variance")),
                row.text("service_P1")));
    assertThat(answer.get("reorderPoint").doubleValue())
        .isEqualTo(row.whole("min_s_with_cdf_ge_P1"));
    assertThat(answer.get("chanceOfStockout").doubleValue())
        .isCloseTo(1 - row.number("cdf_at_s"), within(1e-11));
    assertThat(answer.get("expectedShortPerCycle").doubleValue())
        .isCloseTo(row.number("expected_short_at_s"), asPrinted(row.text("expected_short_at_s")));
  }

  /** Poisson demand over an uncertain lead time, computed exactly; see 08_random_lead_time.csv. */
  @Test
  void reorder_mixes_over_lead_times() {
    Row row = Checks.rows("08_random_lead_time.csv").get(0);
    String outcomes =
        Stream.of(row.text("lead_time_pmf").split(" "))
            .map(pair -> pair.split(":"))
            .map(pair -> json("{'days': %s, 'probability': %s}", pair[0], pair[1]))
            .collect(Collectors.joining(","));
    String mean = row.text("daily_demand").replace("Poisson ", "");
    for (String level : List.of("90", "95", "99")) {
      JsonNode answer =
          ask(
              "reorder",
              json(
                  "{'demand': {'kind': 'poisson', 'meanPerDay': %s}, 'leadTimeDays': {'outcomes':"
                      + " [%s]}, 'target': {'kind': 'cycle', 'value': 0.%s}}",
                  mean, outcomes, level));
      assertThat(answer.get("reorderPoint").doubleValue()).isEqualTo(row.whole("q" + level));
      assertThat(answer.get("meanDemand").doubleValue())
          .isCloseTo(row.number("mean"), within(1e-12));
      assertThat(Math.pow(answer.get("sdDemand").doubleValue(), 2))
          .isCloseTo(row.number("variance"), within(1e-11));
    }
  }

  @Test
  void lots_are_compared_exactly_and_adjusted_by_holm() {
    List<Row> rows = Checks.rows("06_bad_lot_holm.csv");
    String lots =
        rows.stream()
            .map(
                row ->
                    json(
                        "{'lot': '%s', 'failures': %s, 'uses': %s}",
                        row.text("lot"), row.text("failures"), row.text("uses")))
            .collect(Collectors.joining(","));
    JsonNode answer = ask("lots", json("{'lots': [%s], 'alpha': 0.05}", lots));
    for (int i = 0; i < rows.size(); i++) {
      JsonNode found = answer.get("lots").get(i);
      Row row = rows.get(i);
      assertThat(found.get("pValue").doubleValue())
          .isCloseTo(row.number("p_greater_vs_rest"), asPrinted(row.text("p_greater_vs_rest")));
      assertThat(found.get("adjustedPValue").doubleValue())
          .isCloseTo(row.number("holm"), asPrinted(row.text("holm")));
      assertThat(found.get("suspect").booleanValue())
          .isEqualTo(Boolean.parseBoolean(row.text("reject_holm_0.05").toLowerCase(Locale.ROOT)));
    }
  }

  static Stream<Row> wilson() {
    return Checks.rows("09_wilson.csv").stream();
  }

  @ParameterizedTest
  @MethodSource("wilson")
  void rate_is_wilsons_interval(Row row) {
    JsonNode answer =
        ask(
            "rate",
            json(
                "{'done': %s, 'of': %s, 'confidence': %s}",
                row.text("x"), row.text("n"), row.text("conf")));
    assertThat(answer.get("low").doubleValue())
        .isCloseTo(row.number("wilson_lower"), asPrinted(row.text("wilson_lower")));
    assertThat(answer.get("high").doubleValue())
        .isCloseTo(row.number("wilson_upper"), asPrinted(row.text("wilson_upper")));
  }

  @Test
  void forecast_follows_croston_and_its_correction() {
    List<Row> rows = Checks.rows("03_croston_fpp2_productC_alpha0.1.csv");
    String series = rows.stream().map(row -> row.text("demand")).collect(Collectors.joining(","));
    for (String method : List.of("croston", "sba")) {
      JsonNode answer =
          ask("forecast", json("{'series': [%s], 'method': '%s', 'alpha': 0.1}", series, method));
      for (int t = 1; t <= rows.size(); t++) {
        // The file gives the forecast made after each period, which is fitted to the next.
        Row row = rows.get(t - 1);
        JsonNode made = t < rows.size() ? answer.get("fitted").get(t) : answer.get("forecast");
        String column = method + "_forecast_next";
        if (row.has(column)) {
          assertThat(made.doubleValue()).isCloseTo(row.number(column), asPrinted(row.text(column)));
        } else {
          assertThat(made.isNull()).isTrue();
        }
      }
    }
  }

  @Test
  void forecast_without_any_demand_is_null_and_without_a_pattern() {
    JsonNode answer = ask("forecast", json("{'series': [0, 0], 'method': 'tsb', 'alpha': 0.1}"));
    for (String field : List.of("forecast", "meanInterval", "squaredVariation", "pattern")) {
      assertThat(answer.get(field).isNull()).as(field).isTrue();
    }
    JsonNode ses = ask("forecast", json("{'series': [0, 0], 'method': 'ses', 'alpha': 0.1}"));
    assertThat(ses.get("forecast").doubleValue()).isZero();
  }

  /** By hand: of three units one must be back besides the free one, 1 − 0.1·0.25·0.6, and so on. */
  @Test
  void availability_is_exact() {
    JsonNode answer =
        ask("availability", json("{'freeNow': 1, 'ahead': 1, 'chancesBack': [0.9, 0.75, 0.4]}"));
    assertThat(answer.get("chance").doubleValue()).isCloseTo(0.985, within(1e-15));
    assertThat(answer.get("distribution")).hasSize(4);
    assertThat(answer.get("distribution").get(3).doubleValue()).isCloseTo(0.27, within(1e-15));
    JsonNode none = ask("availability", json("{'freeNow': 0, 'ahead': 0, 'chancesBack': []}"));
    assertThat(none.get("chance").doubleValue()).isZero();
    assertThat(none.get("distribution")).hasSize(1);
  }

  /**
   * By hand: 10 s on, 50 s off, 15 min: 15 contractions; 30 sessions; 2 sets of 2 pads in a pack.
   */
  @Test
  void dose_by_hand() {
    JsonNode answer = ask("dose", DoseQuestion.EXAMPLE);
    assertThat(answer.get("cycleSeconds").doubleValue()).isEqualTo(60);
    assertThat(answer.get("contractions").intValue()).isEqualTo(15);
    assertThat(answer.get("sessionSeconds").doubleValue()).isEqualTo(900);
    assertThat(answer.get("stimulationSeconds").doubleValue()).isEqualTo(150);
    assertThat(answer.get("pulses").doubleValue()).isEqualTo(7_500);
    assertThat(answer.get("sessions").intValue()).isEqualTo(30);
    assertThat(answer.get("totalContractions").intValue()).isEqualTo(450);
    assertThat(answer.get("padSets").intValue()).isEqualTo(2);
    assertThat(answer.get("pads").intValue()).isEqualTo(4);
    assertThat(answer.get("packs").intValue()).isEqualTo(1);
    JsonNode halves =
        ask("dose", DoseQuestion.EXAMPLE.replace("\"usesPerPad\": 20", "\"usesPerPad\": 7.5"));
    assertThat(halves.get("padSets").intValue()).isEqualTo(4);
  }

  @Test
  void unit_plan_serves_who_fits() {
    JsonNode answer = ask("unit-plan", UnitPlanQuestion.EXAMPLE);
    assertThat(answer.get("assignments").toString())
        .isEqualTo(
            "[{\"treatment\":\"T1\",\"unit\":\"U1\"},{\"treatment\":\"T2\",\"unit\":\"U2\"}]");
    assertThat(answer.get("unserved")).isEmpty();
    assertThat(answer.get("peak").intValue()).isEqualTo(2);
    assertThat(answer.get("servedProven").booleanValue()).isTrue();
  }

  /** A request a day makes the load of the days away alone. */
  private static JsonNode pool(double load, int units, double target) {
    return ask(
        "pool",
        json(
            "{'requestsPerWeek': 7, 'meanDaysAway': %s, 'turnaroundDays': 0, 'units': %s,"
                + " 'turnedAwayTarget': %s}",
            load, units, target));
  }

  private static String json(String text, Object... values) {
    return String.format(Locale.ROOT, text.replace('\'', '"'), values);
  }

  private static JsonNode ask(String call, String body) {
    return JSON.valueToTree(Asked.CALLS.get(call).ask(body));
  }

  private static org.assertj.core.data.Offset<Double> relative(double value, double by) {
    return within(Math.abs(value) * by);
  }
}
