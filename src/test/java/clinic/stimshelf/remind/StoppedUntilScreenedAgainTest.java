package clinic.stimshelf.remind;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.nullValue;
import static org.hamcrest.Matchers.startsWith;

import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.people.Side;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Folk;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A clot, an implant, a pregnancy, a hospital stay, a fall: nothing goes on before a screening. */
@QuarkusTest
class StoppedUntilScreenedAgainTest {
  @Inject RemindScene scenes;
  @Inject LendingScene lending;
  @Inject Folk folk;
  @Inject Crew crew;
  @Inject PatientLinks links;

  private RemindScene.Lent lent;
  private String program;
  private LocalDate due;

  @BeforeEach
  void lend() {
    lent = scenes.lent();
    program = loan("programId");
    due = LocalDate.parse(loan("dueOn"));
    lending.at(LendingScene.TUESDAY.plusDays(8), "10:00");
  }

  private String loan(String field) {
    return LendingScene.get(lent.scene().desk(), "/api/loans/" + lent.loanId())
        .extract()
        .path(field);
  }

  private io.restassured.response.ValidatableResponse post(
      Crew.Member as, String what, Map<String, ?> body) {
    return LendingScene.post(as, "/api/programs/" + program + "/" + what, body);
  }

  private List<String> messagesToCome() {
    return scenes.waiting(lent.patientId()).stream()
        .filter(one -> one.loanId != null && one.step.equals("message"))
        .map(one -> one.kind)
        .toList();
  }

  @Test
  void the_desk_stops_at_once_what_is_sent_done_and_lent() {
    assertThat(messagesToCome()).isNotEmpty();
    post(lent.scene().desk(), "hold", Map.of("reason", "clot"))
        .statusCode(200)
        .body("state", equalTo("held"))
        .body("hold.words", startsWith("a blood clot"));
    assertThat(messagesToCome()).isEmpty();
    assertThat(scenes.waiting(lent.patientId()))
        .as("what people do about a late unit stays")
        .anyMatch(one -> one.kind.equals("late-call"));
    LendingScene.post(
            lent.scene().pt(),
            "/api/loans/" + lent.loanId() + "/extension",
            Map.of("weeks", 2, "reason", "still weak"))
        .statusCode(422)
        .body("errors.message", hasItem(containsString("stopped until the patient was screened")));
    post(lent.scene().pt(), "hold", Map.of("reason", "fall")).statusCode(422);
    String path = crew.as(lent.scene().desk().id(), () -> links.path(lent.loanId()));
    io.restassured.RestAssured.given()
        .get(path)
        .then()
        .statusCode(200)
        .body(containsString("Do not use the unit"))
        .body(not(containsString("March 11: Done")));
  }

  @Test
  void only_a_clear_screening_and_a_licensed_pt_let_it_go_on_with_as_many_sessions() {
    int sessions =
        LendingScene.get(lent.scene().pt(), "/api/programs/" + program).extract().path("sessions");
    LocalDate last =
        LocalDate.parse(
            LendingScene.get(lent.scene().pt(), "/api/programs/" + program)
                .extract()
                .path("lastSessionOn"));
    post(lent.scene().pt(), "hold", Map.of("reason", "fall", "words", "on the stairs"))
        .statusCode(200);
    lending.at(LendingScene.TUESDAY.plusDays(13), "10:00");
    post(lent.scene().desk(), "release", Map.of()).statusCode(403);
    post(lent.scene().pt(), "release", Map.of())
        .statusCode(422)
        .body("errors.message", hasItem(containsString("a fall")));
    folk.screened(lent.patientId(), "quadriceps", Side.LEFT, lent.scene().pt());
    post(lent.scene().pt(), "release", Map.of("words", "no injury"))
        .statusCode(200)
        .body("hold", nullValue())
        .body("state", equalTo("signed"))
        .body("sessions", equalTo(sessions))
        .body("lastSessionOn", equalTo(last.plusDays(5).toString()));
    assertThat(LocalDate.parse(loan("dueOn"))).isAfter(due);
    assertThat(messagesToCome()).contains("return-soon");
  }

  @Test
  void another_reason_needs_words_and_what_was_stopped_is_not_signed_meanwhile() {
    post(lent.scene().pt(), "hold", Map.of("reason", "other"))
        .statusCode(422)
        .body("errors.field", hasItem("words"));
    post(lent.scene().pt(), "hold", Map.of())
        .statusCode(422)
        .body("errors.field", hasItem("reason"));
    post(lent.scene().pt(), "hold", Map.of("reason", "other", "words", "a rash")).statusCode(200);
    LendingScene.post(
            lent.scene().pt(),
            "/api/programs/" + program + "/setting",
            Map.of("unitTag", loan("unitTag")))
        .statusCode(422);
  }
}
