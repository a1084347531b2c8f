package clinic.stimshelf.remind;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.empty;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import io.restassured.http.ContentType;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Nothing reaches a family by itself; a manager sees to the unit. */
@QuarkusTest
class ADeathSilencesEveryChannelTest {
  @Inject RemindScene scenes;
  @Inject LendingScene lending;
  @Inject Crew crew;
  @Inject PatientLinks links;

  private RemindScene.Lent lent;
  private String page;

  @BeforeEach
  void lend() {
    lent = scenes.lent();
    page = crew.as(lent.scene().desk().id(), () -> links.path(lent.loanId()));
    LocalDate due =
        LocalDate.parse(
            LendingScene.get(lent.scene().desk(), "/api/loans/" + lent.loanId())
                .extract()
                .<String>path("dueOn"));
    lending.at(due.plusDays(5), "10:00");
  }

  private String patient(String more) {
    return "/api/patients/" + lent.patientId() + more;
  }

  /** Messages of days that have passed are not sent after all. */
  private List<String> toDoByPeople() {
    return scenes.waiting(lent.patientId()).stream()
        .filter(one -> !one.step.equals("message"))
        .map(one -> one.kind)
        .sorted()
        .toList();
  }

  private Crew.Member member(String role) {
    return crew.withPassword(role, Credential.NONE, lent.scene().location());
  }

  private String frontDesk(Crew.Member who) {
    return Crew.signIn(who).get().get("/front-desk").then().statusCode(200).extract().asString();
  }

  @Test
  void reminders_calls_letters_the_patients_page_and_the_late_list_fall_silent() {
    Crew.Member desk = lent.scene().desk();
    LendingScene.get(desk, "/api/today").body("late.loanId", hasItem(lent.loanId().toString()));
    assertThat(scenes.waiting(lent.patientId())).isNotEmpty();
    LendingScene.post(desk, patient("/death"), Map.of("diedOn", "2026-03-20")).statusCode(200);
    assertThat(scenes.waiting(lent.patientId())).isEmpty();
    LendingScene.get(desk, "/api/today").body("late", empty()).body("comingIn", empty());
    RestAssured.given().get(page).then().statusCode(404);
    assertThat(frontDesk(member(Roles.MANAGER))).contains("Quietly, for the manager");
    assertThat(frontDesk(member(Roles.FRONT_DESK))).doesNotContain("Quietly, for the manager");
  }

  @Test
  void a_death_entered_by_mistake_is_taken_back_with_a_reason_only() {
    Crew.Member desk = lent.scene().desk();
    List<String> before = toDoByPeople();
    LendingScene.post(desk, patient("/death"), Map.of()).statusCode(200);
    LendingScene.post(desk, patient("/death"), Map.of()).statusCode(422);
    Map<String, Object> entry =
        new HashMap<>(LendingScene.get(desk, patient("")).extract().<Map<String, Object>>path(""));
    entry.put("diedOn", null);
    entry.keySet().removeAll(List.of("id", "version"));
    desk.script()
        .contentType(ContentType.JSON)
        .body(entry)
        .put(patient(""))
        .then()
        .statusCode(422)
        .body("errors.field", hasItem("diedOn"));
    LendingScene.post(desk, patient("/death/withdrawal"), Map.of("reason", " ")).statusCode(422);
    LendingScene.post(desk, patient("/death/withdrawal"), Map.of("reason", "another patient"))
        .statusCode(200)
        .body("diedOn", nullValue());
    assertThat(toDoByPeople()).isNotEmpty().isEqualTo(before);
    RestAssured.given().get(page).then().statusCode(200);
  }

  @Test
  void a_death_tomorrow_is_refused() {
    LendingScene.post(lent.scene().desk(), patient("/death"), Map.of("diedOn", "2031-01-01"))
        .statusCode(422)
        .body("errors.field", equalTo(List.of("diedOn")));
  }
}
