package clinic.stimshelf.program;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;

import clinic.stimshelf.people.Side;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Folk;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The last session is on April 14 and the unit due on April 15, as ChangingARunningProgramTest. */
@QuarkusTest
class EndsAreDecidedTest {
  @Inject Desk desk;
  @Inject NeedsMe needsMe;
  @Inject EndDecisions ends;
  @Inject Crew crew;
  @Inject Folk folk;

  private Desk.Scene scene;
  private String id;

  @BeforeEach
  void sign() {
    desk.at("2026-03-03", "09:00");
    scene = desk.scene();
    id = scene.signed(scene.body(LocalDate.parse("2026-03-04")));
  }

  private boolean onNeedsMe(String day) {
    desk.at(day, "10:00");
    return crew
        .as(
            scene.pt().id(),
            () ->
                needsMe.desk(
                    new NeedsMeSource.Ask(scene.location(), scene.pt().id(), LocalDate.parse(day))))
        .sections()
        .stream()
        .anyMatch(section -> section.title().startsWith("Ends within"));
  }

  private boolean withTheManager(String day) {
    desk.at(day, "10:00");
    return !crew.as(scene.pt().id(), () -> ends.forManager(scene.location())).isEmpty();
  }

  @Test
  void an_end_is_asked_for_seven_days_before_and_climbs_to_the_manager_two_days_before() {
    assertThat(onNeedsMe("2026-04-06")).isFalse();
    assertThat(onNeedsMe("2026-04-07")).isTrue();
    assertThat(withTheManager("2026-04-11")).isFalse();
    assertThat(withTheManager("2026-04-12")).isTrue();
    assertThat(withTheManager("2026-04-15")).as("until the unit is due").isTrue();
  }

  @Test
  void a_decision_settles_it_for_both() {
    desk.at("2026-04-12", "09:00");
    scene
        .post("/api/programs/" + id + "/end-decision", Map.of("choice", "goal-met"))
        .statusCode(200)
        .body("choice", equalTo("goal-met"));
    assertThat(onNeedsMe("2026-04-12")).isFalse();
    assertThat(withTheManager("2026-04-12")).isFalse();
  }

  @Test
  void to_extend_settles_nothing_until_the_longer_program_is_signed() {
    desk.at("2026-04-12", "09:00");
    scene.post("/api/programs/" + id + "/end-decision", Map.of("choice", "extend")).statusCode(200);
    assertThat(onNeedsMe("2026-04-12")).isTrue();
    assertThat(withTheManager("2026-04-12")).isTrue();
    Map<String, Object> longer = scene.body(LocalDate.parse("2026-03-04"));
    longer.put("weeks", 8);
    longer.put("reason", "still weak");
    scene
        .pt()
        .script()
        .contentType(io.restassured.http.ContentType.JSON)
        .body(longer)
        .put("/api/programs/" + id)
        .then()
        .statusCode(200);
    folk.screened(scene.patient(), "quadriceps", Side.LEFT, scene.pt());
    scene.post("/api/programs/" + id + "/signature", Map.of("reviewed", true)).statusCode(200);
    assertThat(onNeedsMe("2026-04-12")).isFalse();
    assertThat(withTheManager("2026-04-12")).isFalse();
  }

  @Test
  void a_choice_that_does_not_exist_is_told() {
    scene
        .post("/api/programs/" + id + "/end-decision", Map.of())
        .statusCode(422)
        .body("errors.field", hasItem("choice"));
    scene.post("/api/programs/" + id + "/end-decision", Map.of("choice", "x")).statusCode(400);
  }
}
