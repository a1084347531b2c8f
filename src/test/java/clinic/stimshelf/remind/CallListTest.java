package clinic.stimshelf.remind;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.people.ReachBy;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What no message could do is called about, and in the end written. */
@QuarkusTest
class CallListTest {
  @Inject RemindScene scenes;
  @Inject LendingScene lending;

  private Reminder call(RemindScene.Lent lent) {
    return scenes.of(lent.patientId()).stream()
        .filter(one -> one.kind.equals("late-call"))
        .findFirst()
        .orElseThrow();
  }

  private static void log(RemindScene.Lent lent, String outcome) {
    LendingScene.post(
            lent.scene().desk(),
            "/api/contacts",
            Map.of("loanId", String.valueOf(lent.loanId()), "outcome", outcome))
        .statusCode(201);
  }

  @Test
  void a_call_nobody_answers_comes_again_the_next_open_day_and_becomes_a_letter() {
    RemindScene.Lent lent = scenes.lent();
    for (int tries = 0; tries < 3; tries++) {
      Reminder call = call(lent);
      lending.at(call.onDay, "10:00");
      String list = lent.scene().desk().script().get("/call-list").asString();
      assertThat(list).contains("A call about the return").contains("Ada Lindqvist");
      log(lent, "voicemail");
      assertThat(call(lent).tries).isEqualTo(tries + 1);
    }
    Reminder letter = call(lent);
    assertThat(letter.route).isEqualTo(Route.LETTER);
    assertThat(letter.why).contains("Nobody answered 3 calls");
    String paper =
        lent.scene().desk().script().get("/messages/" + letter.id + "/letter").asString();
    assertThat(paper).contains("Dear Ada Lindqvist,").contains("was due back on");

    lent.scene()
        .desk()
        .script()
        .contentType("application/x-www-form-urlencoded")
        .formParam("note", "posted")
        .post("/call-list/" + letter.id + "/done")
        .then()
        .statusCode(303);

    assertThat(call(lent).state).isEqualTo(ReminderState.DONE);
  }

  @Test
  void family_may_take_a_message_but_the_patient_is_called_again() {
    RemindScene.Lent lent = scenes.lent();
    LocalDate first = call(lent).onDay;
    lending.at(first, "10:00");
    log(lent, "family");

    assertThat(call(lent).state).isEqualTo(ReminderState.WAITING);
    assertThat(call(lent).onDay).isAfter(first);
  }

  @Test
  void a_wrong_number_is_called_no_more_and_written_to_instead() {
    RemindScene.Lent lent = scenes.lent();
    scenes.change(
        lent.scene(), lent.patientId(), ReachBy.TEXT, "Ada Lindqvist", "en", lent.email(), null);
    lending.at(call(lent).onDay, "10:00");
    log(lent, "wrong-number");

    assertThat(call(lent).route).isEqualTo(Route.LETTER);
    assertThat(call(lent).why).contains("somebody else");
    assertThat(scenes.waiting(lent.patientId()))
        .as("no text goes to a stranger")
        .noneMatch(one -> one.route == Route.TEXT);
  }

  @Test
  void a_call_that_reached_the_patient_is_off_the_list() {
    RemindScene.Lent lent = scenes.lent();
    lending.at(call(lent).onDay, "10:00");
    log(lent, "reached");

    assertThat(call(lent).state).isEqualTo(ReminderState.DONE);
    assertThat(lent.scene().desk().script().get("/call-list").asString())
        .doesNotContain("A call about the return");
  }
}
