package clinic.stimshelf.whatif;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.function.Consumer;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

/**
 * Whatever JSON comes, a calculator answers with finite numbers or names the field that is wrong.
 */
class AnyJsonTest {
  private static final ObjectMapper JSON = new ObjectMapper();

  /** Tokens that stand where something else is expected, or at the edge of what is allowed. */
  private static final List<String> TOKENS =
      List.of(
          "null",
          "true",
          "false",
          "\"\"",
          "\"3\"",
          "\"abc\"",
          "[]",
          "{}",
          "[null]",
          "[[[]]]",
          "0",
          "-0.0",
          "-1",
          "1",
          "2",
          "0.5",
          "1.5",
          "3.0",
          "1e-300",
          "4.9e-324",
          "1e-400",
          "1e400",
          "1e9",
          "1000000001",
          "1e18",
          "100000",
          "100001",
          "0.999999999999999999999",
          "1e999999999",
          "1e-999999999",
          "NaN",
          "-Infinity",
          "12345678901234567890.123456789",
          "0.0001",
          "10000",
          "[0.5, 0.5]",
          "{\"kind\": 3}",
          "\"2026-03-04T09:00\"",
          "\"normal\"",
          "\"poisson\"",
          "\"negative-binomial\"",
          "\"compound-poisson\"",
          "\"fill\"",
          "\"tsb\"",
          "\"ses\"");

  @Property(tries = 4_000)
  void any_token_in_any_place_gives_a_finite_answer_or_names_a_field(
      @ForAll("calls") String call, @ForAll("changes") List<Change> changes) {
    Asked.Call asked = Asked.CALLS.get(call);
    check(asked, changed(asked.example(), changes));
  }

  @Property(tries = 1_000)
  void any_json_at_all_gives_a_finite_answer_or_is_refused(
      @ForAll("calls") String call, @ForAll("anything") String body) {
    check(Asked.CALLS.get(call), body);
  }

  @Property(tries = 1_000)
  void a_body_that_breaks_off_is_refused(@ForAll("calls") String call, @ForAll int at) {
    String example = Asked.CALLS.get(call).example();
    String body = example.substring(0, Math.floorMod(at, example.length() - 1));
    assertThat(outcome(Asked.CALLS.get(call), body)).as(body).isInstanceOf(Unfit.class);
  }

  /** What happens to the question: a place in it, and what stands there instead (null: nothing). */
  record Change(int place, String token) {}

  @Provide
  Arbitrary<String> calls() {
    return Arbitraries.of(Asked.CALLS.keySet());
  }

  @Provide
  Arbitrary<List<Change>> changes() {
    Arbitrary<String> number =
        Combinators.combine(Arbitraries.doubles(), Arbitraries.integers().between(-330, 310))
            .as((mantissa, exponent) -> mantissa + "e" + exponent)
            .map(text -> text.replaceAll("E[-+]?\\d+e", "e"));
    Arbitrary<String> token =
        Arbitraries.frequencyOf(
            net.jqwik.api.Tuple.of(4, Arbitraries.of(TOKENS)),
            net.jqwik.api.Tuple.of(2, Arbitraries.doubles().between(0, 1e6).map(String::valueOf)),
            net.jqwik.api.Tuple.of(
                2, Arbitraries.integers().between(0, 1_000).map(String::valueOf)),
            net.jqwik.api.Tuple.of(1, number),
            net.jqwik.api.Tuple.of(1, Arbitraries.just("gone")));
    return Combinators.combine(Arbitraries.integers().between(0, 1_000), token)
        .as(Change::new)
        .list()
        .ofMinSize(1)
        .ofMaxSize(3);
  }

  @Provide
  Arbitrary<String> anything() {
    Arbitrary<String> leaf = Arbitraries.of(TOKENS);
    Arbitrary<String> key =
        Arbitraries.of(
            "onSeconds", "observations", "lots", "demand", "units", "series", "done", "x", "");
    return Arbitraries.lazyOf(
        () -> leaf,
        () -> leaf,
        () -> anything().list().ofMaxSize(3).map(inner -> "[" + String.join(",", inner) + "]"),
        () ->
            Combinators.combine(key, anything())
                .as((name, value) -> "\"" + name + "\": " + value)
                .list()
                .ofMaxSize(4)
                .map(inner -> "{" + String.join(",", inner) + "}"));
  }

  private static void check(Asked.Call call, String body) {
    Object outcome = outcome(call, body);
    if (outcome instanceof Unfit unfit) {
      assertThat(unfit.faults()).isNotEmpty();
      assertThat(unfit.faults()).as(body).allMatch(fault -> fault.says().endsWith("."));
    } else {
      assertFinite(JSON.valueToTree(outcome), body);
    }
  }

  private static Object outcome(Asked.Call call, String body) {
    try {
      return call.ask(body);
    } catch (Unfit unfit) {
      return unfit;
    }
  }

  private static void assertFinite(JsonNode node, String body) {
    if (node.isNumber()) {
      assertThat(node.doubleValue()).as(body).isFinite();
    }
    node.forEach(inner -> assertFinite(inner, body));
  }

  /** The example with other tokens in some of its places, lists and objects included. */
  private static String changed(String example, List<Change> changes) {
    try {
      JsonNode tree = JSON.readTree(example);
      int mark = 0;
      List<String> tokens = new ArrayList<>();
      for (Change change : changes) {
        List<Consumer<String>> places = new ArrayList<>();
        collect(tree, places);
        if (change.token().equals("gone")) {
          places.get(change.place() % places.size()).accept(null);
        } else {
          places.get(change.place() % places.size()).accept("@" + mark + "@");
          tokens.add(change.token());
          mark++;
        }
      }
      String body = tree.toString();
      for (int i = 0; i < mark; i++) {
        body = body.replace("\"@" + i + "@\"", tokens.get(i));
      }
      return body;
    } catch (java.io.IOException impossible) {
      throw new java.io.UncheckedIOException(impossible);
    }
  }

  private static void collect(JsonNode node, List<Consumer<String>> places) {
    if (node instanceof ObjectNode object) {
      for (Iterator<String> names = object.fieldNames(); names.hasNext(); ) {
        String name = names.next();
        places.add(
            token -> {
              if (token == null) {
                object.remove(name);
              } else {
                object.put(name, token);
              }
            });
        collect(object.get(name), places);
      }
      places.add(token -> object.put("extra", token));
    } else if (node instanceof ArrayNode array) {
      for (int i = 0; i < array.size(); i++) {
        int at = i;
        places.add(
            token -> {
              if (token == null) {
                array.remove(at);
              } else {
                array.set(at, JSON.getNodeFactory().textNode(token));
              }
            });
        collect(array.get(i), places);
      }
    }
  }
}
