package clinic.stimshelf.whatif;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasKey;
import static org.hamcrest.Matchers.nullValue;
import static org.hamcrest.Matchers.startsWith;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The calculators as scripts call them. */
@QuarkusTest
class WhatIfApiTest {
  @Inject Crew crew;

  private Long here;
  private Crew.Member manager;

  @BeforeEach
  void ownManager() {
    here = crew.location(Crew.unique("WHATIF"));
    manager = crew.member(Roles.MANAGER, Credential.NONE, here);
  }

  @Test
  void every_call_answers_its_example() {
    Asked.CALLS.forEach(
        (call, asked) -> assertThat(ask(call, asked.example()).statusCode()).isEqualTo(200));
  }

  @Test
  void therapists_may_ask_and_the_front_desk_may_not() {
    Crew.Member therapist = crew.member(Roles.THERAPIST, Credential.PT, here);
    Crew.Member desk = crew.member(Roles.FRONT_DESK, Credential.NONE, here);
    assertThat(ask(therapist, "rate", "{\"done\": 1, \"of\": 2}").statusCode()).isEqualTo(200);
    assertThat(ask(desk, "rate", "{\"done\": 1, \"of\": 2}").statusCode()).isEqualTo(403);
    assertThat(ask(desk, "rate", "nothing").statusCode()).isEqualTo(403);
  }

  /** Newcombe 1998, Stat Med 17:857-872, table I, method 3: 81 of 263 (second-hand). */
  @Test
  void a_published_interval_comes_back_at_full_precision() {
    Response answer = ask("rate", "{\"done\": 81, \"of\": 263}");
    assertThat(answer.jsonPath().getDouble("low")).isBetween(0.25525, 0.25535);
    assertThat(answer.asString()).contains("0.25528851");
  }

  @Test
  void figures_that_do_not_exist_are_there_as_null() {
    ask("pool", PoolQuestion.EXAMPLE.replace("\"units\": 24", "\"units\": 3"))
        .then()
        .statusCode(200)
        .body("$", hasKey("mustWait"))
        .body("mustWait", nullValue())
        .body("meanWaitDays", nullValue())
        .body("curve[0]", hasKey("mustWait"));
  }

  @Test
  void a_refusal_is_a_problem_that_names_every_field() {
    ask("rate", "{\"done\": \"3\", \"of\": 2.5}")
        .then()
        .statusCode(400)
        .contentType(startsWith("application/problem+json"))
        .body("status", org.hamcrest.Matchers.equalTo(400))
        .body("detail", containsString("done"))
        .body("errors.field", hasItem("done"))
        .body("errors.field", hasItem("of"))
        .body("errors.message", hasItem(containsString("a whole number from 1 to 1000000000")));
  }

  @Test
  void what_is_not_json_is_a_problem_too() {
    List<String> bodies =
        List.of(
            "",
            "{",
            "[]",
            "null",
            "\"x\"",
            "{\"done\": NaN, \"of\": 3}",
            "{\"done\":1,\"of\":2}x",
            "\u0000",
            "{\"done\": 1e999999999, \"of\": 1}",
            "[".repeat(5_000));
    for (String body : bodies) {
      for (String call : Asked.CALLS.keySet()) {
        Response answer = ask(call, body);
        assertThat(answer.statusCode()).as(call + " " + body).isEqualTo(400);
        assertThat(answer.contentType()).startsWith("application/problem+json");
      }
    }
    Response bytes =
        manager
            .script()
            .contentType("application/json")
            .body(new byte[] {'{', '"', (byte) 0xff, (byte) 0xfe, '"', ':', '1', '}'})
            .post("/api/what-if/rate");
    assertThat(bytes.statusCode()).isEqualTo(400);
  }

  @Test
  void the_same_question_has_the_same_answer() {
    Asked.CALLS.forEach(
        (call, asked) ->
            assertThat(ask(call, asked.example()).asString())
                .isEqualTo(ask(call, asked.example()).asString()));
  }

  private Response ask(String call, String body) {
    return ask(manager, call, body);
  }

  private static Response ask(Crew.Member who, String call, String body) {
    return who.script()
        .contentType("application/json")
        .body(body)
        .post("/api/what-if/" + call)
        .andReturn();
  }
}
