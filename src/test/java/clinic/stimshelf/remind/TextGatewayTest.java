package clinic.stimshelf.remind;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.people.ReachBy;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.testing.TextStation;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Text messages leave signed, and what the gateway tells is believed only if it is signed. */
@QuarkusTest
class TextGatewayTest {

  @Inject RemindScene scenes;
  @Inject LendingScene lending;
  @Inject TextStation station;
  @Inject Postman postman;
  @Inject MutableClock clock;

  private RemindScene.Lent lent;
  private String number;
  private int before;

  @BeforeEach
  void lend() {
    lent = scenes.lent();
    number = RemindScene.phone(lent.patientId()).replaceAll("\\D", "");
    scenes.onlyOf(lent.scene().location());
    scenes.change(
        lent.scene(), lent.patientId(), ReachBy.TEXT, "Ada Lindqvist", "es", lent.email(), null);
    scenes.atDayOf(lent, "start-check", "09:00");
    before = station.textsTo(number).size();
  }

  @AfterEach
  void answersAgain() {
    station.answers(202);
  }

  private void tell(String body, String secret, int status) {
    given()
        .contentType("application/json")
        .headers(Signatures.sign(secret, "/api/text-gateway", body, clock.instant()))
        .body(body)
        .post("/api/text-gateway")
        .then()
        .statusCode(status);
  }

  private boolean opted() {
    return scenes.waiting(lent.patientId()).stream()
        .anyMatch(one -> one.kind.equals(Plan.OPTED_OUT));
  }

  @Test
  void a_text_leaves_once_and_signed() {
    postman.round();
    postman.round();

    assertThat(station.textsTo(number)).hasSize(before + 1);
    TextStation.Got got = station.textsTo(number).get(before);
    assertThat(
            Signatures.holds(
                TextStation.SECRET,
                "/texts",
                got.text(),
                got.input(),
                got.signature(),
                clock.instant()))
        .isTrue();
    assertThat(got.digest()).isEqualTo(Signatures.digest(got.text()));
    assertThat(got.body().get("text").asText()).contains("Hola").contains("STOP");
    assertThat(scenes.messages(lent.patientId()).get(0).state).isEqualTo(MessageState.SENT);
  }

  @Test
  void stop_moves_the_person_to_the_call_list_at_once() {
    String stop = "{\"kind\":\"stop\",\"from\":\"+1 " + number + "\"}";
    tell(stop, "somebody else's secret", 401);
    assertThat(opted()).isFalse();

    tell(stop, TextStation.SECRET, 204);
    tell(stop, TextStation.SECRET, 204);

    assertThat(opted()).isTrue();
    assertThat(scenes.waiting(lent.patientId())).noneMatch(one -> one.route.sent());
    postman.round();
    assertThat(station.textsTo(number)).hasSize(before);
  }

  @Test
  void what_could_not_be_delivered_becomes_a_call() {
    postman.round();
    String id = scenes.messages(lent.patientId()).get(0).mailId;
    tell("{\"kind\":\"undelivered\",\"id\":\"" + id + "\"}", TextStation.SECRET, 204);

    assertThat(scenes.waiting(lent.patientId()))
        .anyMatch(one -> one.kind.equals(Plan.UNREACHABLE))
        .noneMatch(one -> one.route.sent());
  }

  @Test
  void a_gateway_in_trouble_is_tried_again_and_one_that_refuses_is_believed() {
    station.answers(503);
    postman.round();
    station.answers(422);
    clock.advance(Duration.ofMinutes(1));
    postman.round();

    assertThat(scenes.messages(lent.patientId()).get(0).state).isEqualTo(MessageState.FAILED);
    assertThat(scenes.messages(lent.patientId()).get(0).tries).isEqualTo(2);
    assertThat(scenes.waiting(lent.patientId())).anyMatch(one -> one.kind.equals(Plan.UNREACHABLE));
  }
}
