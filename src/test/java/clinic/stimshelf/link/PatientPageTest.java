package clinic.stimshelf.link;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.remind.PatientLinks;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.ValidatableResponse;
import io.restassured.specification.RequestSpecification;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What a link opens, what can be done there, and what cannot. */
@QuarkusTest
class PatientPageTest {
  private static final String PATCHY = "Skin stays red, stings or is patchy";

  @Inject LendingScene lending;
  @Inject LinkScene scenes;
  @Inject Crew crew;
  @Inject Locations locations;
  @Inject MutableClock clock;

  private LendingScene.Scene scene;
  private String program;
  private Long loan;
  private String page;

  /** The bean that reads and makes what the tests need. */
  @jakarta.enterprise.context.ApplicationScoped
  static class LinkScene {
    @Inject PatientLinks links;
    @Inject EntityManager em;

    @ActivateRequestContext
    @Transactional
    String link(Long loan) {
      return links.path(loan);
    }

    /** All tests call from one address. */
    @Transactional
    void forgetGuesses() {
      em.createNativeQuery("delete from failed_sign_in where subject like 'link%'").executeUpdate();
    }

    @Transactional
    void language(Long loan, String language) {
      em.createNativeQuery(
              "update patient set language = :language where id = (select patient_id from loan"
                  + " where id = :loan)")
          .setParameter("language", language)
          .setParameter("loan", loan)
          .executeUpdate();
    }

    @ActivateRequestContext
    @Transactional
    long rows(String table, String where) {
      return ((Number)
              em.createNativeQuery("select count(*) from " + table + " where " + where)
                  .getSingleResult())
          .longValue();
    }
  }

  @BeforeEach
  void lend() {
    scenes.forgetGuesses();
    scene = lending.open();
    program = lending.signed(scene);
    loan = Long.valueOf(lending.lent(scene, program, lending.unit(scene)));
    page = scenes.link(loan);
    lending.at(LendingScene.TUESDAY.plusDays(1), "10:00");
  }

  private static RequestSpecification form() {
    return given().contentType("application/x-www-form-urlencoded").redirects().follow(false);
  }

  private ValidatableResponse done(int nth) {
    return form()
        .formParam("day", LendingScene.TUESDAY.plusDays(1).toString())
        .formParam("nth", nth)
        .formParam("outcome", "done")
        .post(page + "/sessions")
        .then();
  }

  @Test
  void shows_today_without_a_name_and_without_a_sign_in() {
    given()
        .get(page)
        .then()
        .statusCode(200)
        .body(containsString("Today"), containsString("Session 1"), containsString("Session 2"))
        .body(not(containsString("Lindqvist")), not(containsString("T-")))
        .header("Cache-Control", "no-store");
  }

  @Test
  void ticking_is_a_session_of_the_program_once_however_often_it_is_pressed() {
    done(1).statusCode(303);
    done(1).statusCode(303);

    assertThat(
            scenes.rows(
                "session_log",
                "program_id = " + program + " and standing_nth is not null and source = 'PATIENT'"))
        .isEqualTo(1);
    assertThat(
            scenes.rows(
                "audit_entry",
                "action = 'session logged' and subject_id = '"
                    + program
                    + "' and actor_name = 'the patient, by their link'"))
        .isEqualTo(1);
    given().get(page).then().body(containsString("Take back"));

    form()
        .formParam("day", LendingScene.TUESDAY.plusDays(1).toString())
        .formParam("nth", 1)
        .formParam("back", "yes")
        .post(page + "/sessions")
        .then()
        .statusCode(303);

    assertThat(
            scenes.rows("session_log", "program_id = " + program + " and standing_nth is not null"))
        .isZero();
  }

  @Test
  void days_that_are_not_the_patients_to_tell_change_nothing() {
    for (String day : List.of("2026-03-06", "2026-02-20", "yesterday", "")) {
      form()
          .formParam("day", day)
          .formParam("nth", 1)
          .formParam("outcome", "done")
          .post(page + "/sessions")
          .then()
          .statusCode(303);
    }
    done(9).statusCode(303);

    assertThat(scenes.rows("session_log", "program_id = " + program)).isZero();
  }

  @Test
  void looking_at_every_page_changes_nothing() {
    long before = scenes.rows("report", "loan_id = " + loan);
    for (String path :
        List.of("", "/skin", "/now/call", "/now/stop", "/now/fine", "/now/pads", "/days.ics")) {
      given().get(page + path).then().statusCode(200);
      given().head(page + path).then().statusCode(200);
    }
    for (String path : List.of("/sessions", "/report")) {
      assertThat(given().get(page + path).statusCode()).isIn(404, 405);
    }
    assertThat(scenes.rows("report", "loan_id = " + loan)).isEqualTo(before);
    assertThat(scenes.rows("session_log", "program_id = " + program)).isZero();
  }

  @Test
  void a_grave_report_says_what_to_do_and_stands_with_therapist_and_desk_at_once() {
    Crew.Browser therapist =
        Crew.signIn(crew.withPassword(Roles.THERAPIST, Credential.PT, scene.location()));
    Crew.Browser desk =
        Crew.signIn(crew.withPassword(Roles.FRONT_DESK, Credential.NONE, scene.location()));

    String now =
        form()
            .formParam("kind", "call")
            .post(page + "/report")
            .then()
            .statusCode(303)
            .extract()
            .header("Location");
    given()
        .get(now)
        .then()
        .statusCode(200)
        .body(containsString("Stop and call now"), containsString("911"));

    therapist.get().get("/needs-me").then().body(containsString("Blister, open skin, burn"));
    desk.get().get("/front-desk").then().body(containsString("Blister, open skin, burn"));
  }

  @Test
  void a_stop_report_is_the_therapists_until_an_open_hour_passed() {
    Crew.Member colleague = crew.member(Roles.THERAPIST, Credential.PT, scene.location());
    lending.at(LendingScene.TUESDAY.plusDays(1), "17:30");
    form().formParam("kind", "stop").post(page + "/report").then().statusCode(303);

    assertThat(needsMe(scene.pt(), "")).contains(PATCHY);
    assertThat(needsMe(colleague, "")).doesNotContain(PATCHY);
    assertThat(needsMe(colleague, "?whose=everybody")).contains(PATCHY);

    lending.at(LendingScene.TUESDAY.plusDays(2), "08:29");
    assertThat(needsMe(colleague, "")).doesNotContain(PATCHY);
    lending.at(LendingScene.TUESDAY.plusDays(2), "08:30");
    String escalated = needsMe(colleague, "");
    assertThat(escalated).contains(PATCHY).contains("Nobody has answered for an open hour");
    assertThat(scene.desk().script().get("/front-desk").asString()).contains(PATCHY);

    String report = escalated.split("href=\"/reports/")[1];
    String path = "/reports/" + report.substring(0, report.indexOf('"'));
    scene.desk().script().get(path).then().statusCode(200);
    colleague
        .script()
        .contentType("application/x-www-form-urlencoded")
        .formParam("answer", "Stopped; looked at tomorrow")
        .post(path)
        .then()
        .statusCode(303);
    assertThat(needsMe(colleague, "")).doesNotContain(PATCHY);
    colleague
        .script()
        .contentType("application/x-www-form-urlencoded")
        .formParam("answer", "again")
        .post(path)
        .then()
        .statusCode(422)
        .body(containsString("answered this report already"));
  }

  private static String needsMe(Crew.Member who, String whose) {
    return who.script().get("/needs-me" + whose).asString();
  }

  @Test
  void a_link_ends_with_the_loan_or_when_it_is_taken_back() {
    String other = scenes.link(loan);
    Crew.Browser desk =
        Crew.signIn(crew.withPassword(Roles.FRONT_DESK, Credential.NONE, scene.location()));
    desk.form().post("/patient-links/" + loan + "/revoked").then().statusCode(303);
    given().get(page).then().statusCode(404).body(containsString("This link has ended"));
    given().get(other).then().statusCode(404);

    String fresh = scenes.link(loan);
    given().get(fresh).then().statusCode(200);
    LendingScene.post(scene.desk(), "/api/loans/" + loan + "/return", Map.of()).statusCode(200);
    given().get(fresh).then().statusCode(404);
  }

  @Test
  void what_to_do_in_an_emergency_is_said_in_the_patients_language() {
    locations.choose(
        scene.location(), Map.of("after-hours-words-spanish", "Deje un mensaje de noche."));
    scenes.language(loan, "es");
    for (String path : List.of("", "/now/call")) {
      given()
          .get(page + path)
          .then()
          .statusCode(200)
          .body(
              containsString("<p lang=\"es\">Deje un mensaje de noche.</p>"),
              containsString("llame al 911 ahora"));
    }

    locations.choose(scene.location(), Map.of("emergency-words-spanish", "Llame al 911, ya."));
    given()
        .get(page + "/now/call")
        .then()
        .body(
            containsString("<p lang=\"es\">Llame al 911, ya.</p>"),
            not(containsString("llame al 911 ahora")));
    scenes.language(loan, "en");
    given()
        .get(page + "/now/call")
        .then()
        .body(containsString("call 911 now"), not(containsString("Deje un mensaje")));
  }

  @Test
  void a_link_opens_its_own_loan_and_nothing_else() {
    String secondProgram = lending.signed(scene);
    Long second = Long.valueOf(lending.lent(scene, secondProgram, lending.unit(scene)));
    String secondPage = scenes.link(second);
    lending.at(LendingScene.TUESDAY.plusDays(1), "10:00");

    done(1).statusCode(303);

    assertThat(scenes.rows("session_log", "program_id = " + secondProgram)).isZero();
    given().get(secondPage).then().body(not(containsString("Take back")));
  }

  @Test
  void only_a_hash_of_192_random_bits_is_kept() {
    String token = page.substring("/p/".length());

    assertThat(token).matches("[A-Za-z0-9_-]{32}");
    assertThat(scenes.rows("patient_token", "hash = '" + token + "'")).isZero();
    assertThat(scenes.rows("patient_token", "loan_id = " + loan)).isEqualTo(1);
  }

  @Test
  void guessing_is_slowed_down() {
    int status = 404;
    for (int i = 0; i < 40 && status == 404; i++) {
      status = given().get("/p/" + "x".repeat(31) + (char) ('a' + i % 26)).statusCode();
    }

    assertThat(status).isEqualTo(429);
    clock.advance(Duration.ofMinutes(16));
    given().get(page).then().statusCode(200);
  }

  @Test
  void the_desk_makes_a_link_that_is_shown_once_as_a_square_too() {
    Crew.Browser desk =
        Crew.signIn(crew.withPassword(Roles.FRONT_DESK, Credential.NONE, scene.location()));
    desk.form()
        .post("/patient-links/" + loan)
        .then()
        .statusCode(200)
        .body(containsString("https://clinic.example/p/"), containsString("<svg"));
    desk.get()
        .get("/patient-links/" + loan)
        .then()
        .body(not(containsString("clinic.example/p/")), containsString("2 links are out"));
  }
}
