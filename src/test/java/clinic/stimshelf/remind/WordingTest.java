package clinic.stimshelf.remind;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.PostOffice;
import clinic.stimshelf.web.Roles;
import com.icegreen.greenmail.util.GreenMailUtil;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.ValidatableResponse;
import jakarta.inject.Inject;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A wording is seen as it will read before anybody is written to with it. */
@QuarkusTest
class WordingTest {
  private static final String PAGE = "/settings/wording/start-check/en";
  private static final String OURS = "Is all well since {day}? Our number is {phone}.";

  @Inject RemindScene scenes;
  @Inject Crew crew;
  @Inject Locations locations;
  @Inject Wordings wordings;
  @Inject Postman postman;
  @Inject PostOffice office;

  private RemindScene.Lent lent;
  private Crew.Browser manager;

  @BeforeEach
  void lend() {
    lent = scenes.lent();
    manager =
        Crew.signIn(crew.withPassword(Roles.MANAGER, Credential.NONE, lent.scene().location()));
  }

  private ValidatableResponse typed(String words, boolean live) {
    var form = manager.form().formParam("words", words);
    return (live ? form.formParam("live", "yes") : form).post(PAGE).then();
  }

  private String said() {
    return wordings.of(lent.scene().location(), "start-check", "en");
  }

  @Test
  void is_shown_first_and_said_only_when_it_is_chosen() {
    String before = said();
    typed(OURS, false)
        .statusCode(200)
        .body(
            containsString("So it will read"),
            containsString("Hello "),
            containsString("Is all well since Thursday, March 5?"));
    assertThat(said()).as("a preview changes nothing").isEqualTo(before);

    typed(OURS, true).statusCode(303);

    assertThat(said()).isEqualTo(OURS);
    scenes.onlyOf(lent.scene().location());
    scenes.atDayOf(lent, "start-check", "09:00");
    postman.round();
    assertThat(GreenMailUtil.getBody(office.mailTo(lent.email()).get(0)))
        .contains("Is all well since");
    assertThat(wordings.of(lent.scene().location(), "start-check", "es"))
        .as("the other language keeps its own")
        .contains("¿Cómo han ido");
    assertThat(wordings.of(scenes.lent().scene().location(), "start-check", "en"))
        .as("so does another location")
        .isEqualTo(before);

    typed("", true).statusCode(303);
    assertThat(said()).as("empty goes back").isEqualTo(before);
  }

  @Test
  void names_no_treatment_unless_the_location_chose_so() {
    String telling = "How is your stimulator? {colour}";
    typed(telling, false)
        .statusCode(422)
        .body(
            containsString("would tell others what somebody is treated for"),
            containsString("{colour}"),
            not(containsString("So it will read")));
    typed(telling, true).statusCode(422);

    locations.choose(lent.scene().location(), Map.of("reminder-treatment-words", "yes"));

    typed("How is your stimulator?", true).statusCode(303);
    assertThat(said()).isEqualTo("How is your stimulator?");
  }

  @Test
  void belongs_to_managers() {
    LendingScene.Scene scene = lent.scene();
    assertThat(scene.desk().script().get(PAGE).statusCode()).isEqualTo(403);
    assertThat(manager.get().get("/settings/wording/no-such-step/en").statusCode()).isEqualTo(404);
  }
}
