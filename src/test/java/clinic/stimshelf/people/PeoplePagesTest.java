package clinic.stimshelf.people;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The pages as a browser without script uses them. */
@QuarkusTest
class PeoplePagesTest {
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject Patients patients;
  @Inject Screenings screenings;
  @Inject Intakes intakes;
  private Long place;

  @BeforeEach
  void aLocation() {
    place = crew.location(Crew.unique("PPage"));
  }

  @Test
  void aPatientIsAddedAndWhatIsWrongComesBackAsTyped() {
    Browser desk = signedIn(Roles.FRONT_DESK, Credential.NONE);
    String chart = Crew.unique("W-");
    Response wrong =
        desk.form()
            .formParam("chartNumber", chart)
            .formParam("name", "<b>Ada</b>")
            .formParam("birthDate", "yesterday")
            .formParam("reachBy", "email")
            .post("/patients");
    wrong.then().statusCode(422);
    assertThat(wrong.asString())
        .contains("value=\"" + chart + "\"")
        .contains("&lt;b&gt;Ada&lt;/b&gt;")
        .contains("The birth date must be a day such as 3/14/2026.")
        .contains("To be reached by e-mail, an address is needed.")
        .doesNotContain("The birth date is missing")
        .contains("aria-invalid=\"true\"");
    Response made =
        desk.form()
            .formParam("chartNumber", chart)
            .formParam("name", "Ada Lindqvist")
            .formParam("birthDate", "5/17/1980")
            .formParam("reachBy", "text")
            .formParam("phone", "(555) 010-0100")
            .formParam("remindersAllowed", "true")
            .post("/patients");
    made.then().statusCode(303);
    PatientView view = patients.byChart(chart).orElseThrow();
    assertThat(made.header("Location")).endsWith("/patients/" + view.id() + "?done=added");
    assertThat(view.birthDate()).isEqualTo(LocalDate.of(1980, 5, 17));
    assertThat(view.remindersAllowed()).isTrue();
    assertThat(desk.get().get("/patients/" + view.id()).asString())
        .contains("<span class=\"name\">Ada Lindqvist</span>")
        .contains("No intake form yet")
        .doesNotContain("Screen a region");
  }

  @Test
  void namesOfAnyScriptAreKeptAndWhatIsNoNameIsRefusedClearly() {
    Browser desk = signedIn(Roles.FRONT_DESK, Credential.NONE);
    for (String name : List.of("Zoë 🦉 Ó'Näïve", "دانا (Dana) حسن", "🦉".repeat(60))) {
      String chart = Crew.unique("W-");
      entry(desk, chart, name).then().statusCode(303);
      PatientView view = patients.byChart(chart).orElseThrow();
      assertThat(view.name()).isEqualTo(name);
      assertThat(desk.get().get("/patients/" + view.id()).asString())
          .contains("<span class=\"name\">" + name.replace("'", "&#39;") + "</span>");
    }
    String longest = "Lindqvist-".repeat(50);
    Response tooLong = entry(desk, Crew.unique("W-"), longest);
    tooLong.then().statusCode(422);
    assertThat(tooLong.asString())
        .contains("A name has at most 120 characters.")
        .contains("value=\"" + longest + "\"");
    for (String name : List.of("Ada\r\nBcc: x@example.net", "Ada\u0000Lindqvist")) {
      Response header = entry(desk, Crew.unique("W-"), name);
      header.then().statusCode(422);
      assertThat(header.asString()).contains("A name stands on one line");
    }
  }

  private static Response entry(Browser desk, String chart, String name) {
    return desk.form()
        .formParam("chartNumber", chart)
        .formParam("name", name)
        .formParam("birthDate", "5/17/1980")
        .formParam("reachBy", "call")
        .formParam("phone", "(555) 010-0100")
        .post("/patients");
  }

  @Test
  void findingOneOpensItAndNoNameStandsInAnAddress() {
    Browser desk = signedIn(Roles.FRONT_DESK, Credential.NONE);
    String family = Crew.unique("Quill");
    Long id = patients.add(Folk.entry(place, Crew.unique("Q-"), "Ada " + family, born()));
    Response found = desk.form().formParam("q", family).post("/patients/find");
    found.then().statusCode(303);
    assertThat(found.header("Location")).endsWith("/patients/" + id);
    patients.add(Folk.entry(place, Crew.unique("Q-"), "Bo " + family, born()));
    assertThat(desk.form().formParam("q", family).post("/patients/find").asString())
        .contains("2 found");
    desk.form().formParam("q", " ").post("/patients/find").then().statusCode(422);
    desk.form()
        .formParam("q", family)
        .formParam("page", "x")
        .post("/patients/find")
        .then()
        .statusCode(422);
  }

  @Test
  void aChangeOfWhatSomebodyElseChangedIsSaidAndKept() {
    Browser desk = signedIn(Roles.FRONT_DESK, Credential.NONE);
    Long id = folk.patient(place);
    String page = desk.get().get("/patients/" + id + "/edit").asString();
    assertThat(page).contains("name=\"version\" value=\"0\"");
    edit(desk, id, "First").then().statusCode(303);
    Response second = edit(desk, id, "Second");
    second.then().statusCode(412);
    assertThat(second.asString()).contains("value=\"Second\"").contains("a moment ago");
  }

  @Test
  void thePatientsFormShowsNothingElseAndSpeaksSpanish() {
    Browser desk = signedIn(Roles.FRONT_DESK, Credential.NONE);
    Long id = folk.patient(place);
    desk.get().get("/patients/" + id + "/intake").then().statusCode(200);
    String form =
        desk.form()
            .formParam("language", "es")
            .formParam("means", "screen")
            .formParam("muscle", "quadriceps")
            .formParam("side", "left")
            .post("/patients/" + id + "/intake/form")
            .asString();
    assertThat(form)
        .contains("lang=\"es\"")
        .contains("¿Tiene un marcapasos?")
        .contains("izquierda")
        .doesNotContain("class=\"ways\"")
        .doesNotContain("checked");
    Response incomplete =
        desk.form()
            .formParam("language", "es")
            .formParam("means", "screen")
            .formParam("muscle", "quadriceps")
            .formParam("answer.clot_dvt", "yes")
            .formParam("answeredBy", "Ada")
            .post("/patients/" + id + "/intake");
    incomplete.then().statusCode(422);
    assertThat(incomplete.asString())
        .contains("Falta esta respuesta.")
        .contains("name=\"answer.clot_dvt\" value=\"yes\" checked");
    answerForm(desk, id, Map.of("clot_dvt", "yes")).then().statusCode(200);
    assertThat(intakes.latest(id, "thigh").orElseThrow().exceptions()).isEqualTo(1);
  }

  @Test
  void theScreeningPutsTheExceptionsFirstAndChoosesNothing() {
    Browser desk = signedIn(Roles.FRONT_DESK, Credential.NONE);
    Browser pta = signedIn(Roles.THERAPIST, Credential.PTA);
    Browser pt = signedIn(Roles.THERAPIST, Credential.PT);
    Long id = folk.patient(place);
    answerForm(desk, id, Map.of("swelling_postop", "yes"));
    desk.get().get("/patients/" + id + "/screening").then().statusCode(403);
    String page = area(pta, id).asString();
    assertThat(page).doesNotContain(" checked");
    assertThat(page.indexOf("The patient did not say no"))
        .isPositive()
        .isLessThan(page.indexOf("answer.swelling_postop"))
        .isLessThan(page.indexOf("About the left thigh"));
    assertThat(page.indexOf("answer.swelling_postop"))
        .isLessThan(page.indexOf("About the left thigh"));
    assertThat(page.indexOf("answer.clot_dvt")).isLessThan(page.indexOf("answer.pregnancy"));

    assertThat(
            pta.form()
                .formParam("muscle", "quadriceps")
                .formParam("side", "left")
                .post("/patients/" + id + "/screening")
                .statusCode())
        .as("one click does not make everything no")
        .isEqualTo(422);
    assertThat(screenings.of(id)).isEmpty();

    screen(pta, id, Map.of("swelling_postop", "yes")).then().statusCode(303);
    assertThat(pta.get().get("/patients/" + id).asString())
        .contains("Precaution not accepted")
        .contains("Accept precaution");
    Long screening = screenings.of(id).get(0).id();
    Response refused = accept(pta, id, screening, "Mild.");
    refused.then().statusCode(422);
    assertThat(refused.asString()).contains("licensed PT only");
    accept(pt, id, screening, "Mild, no heat.").then().statusCode(303);
    assertThat(pt.get().get("/patients/" + id).asString())
        .contains("nothing stands against it")
        .contains("Mild, no heat.");
  }

  @Test
  void clearancesOrdersAndConsentsAreRecordedOnTheirPages() {
    Browser pt = signedIn(Roles.THERAPIST, Credential.PT);
    Browser desk = signedIn(Roles.FRONT_DESK, Credential.NONE);
    Long id = folk.patient(place);
    String records = "/patients/" + id + "/records/";
    for (String kind : new String[] {"clearance", "order", "consent"}) {
      pt.get().get(records + kind).then().statusCode(200);
      pt.form().formParam("clearedOn", "soon").post(records + kind).then().statusCode(422);
    }
    desk.get().get(records + "order").then().statusCode(403);
    pt.form()
        .formParam("question", "repair_at_risk")
        .formParam("clearedBy", "Dr. Vale")
        .formParam("clearedOn", "1/5/2026")
        .formParam("scope", "isometric")
        .post(records + "clearance")
        .then()
        .statusCode(303);
    pt.form()
        .formParam("prescriber", "Dr. Vale")
        .formParam("orderedOn", "1/5/2026")
        .formParam("ordered", "NMES left knee")
        .post(records + "order")
        .then()
        .statusCode(303);
    desk.form()
        .formParam("kind", "loan")
        .formParam("given", "no")
        .formParam("signer", "Ada Lindqvist")
        .formParam("relation", "self")
        .formParam("textVersion", "1")
        .formParam("means", "paper")
        .post(records + "consent")
        .then()
        .statusCode(303);
    String page = pt.get().get("/patients/" + id).asString();
    assertThat(page).contains("isometric").contains("NMES left knee").contains("Refused");
    pt.form()
        .formParam("reason", "")
        .post(records + "order/999999999/withdrawal")
        .then()
        .statusCode(404);
  }

  @Test
  void theTrailIsForManagers() {
    Long id = folk.patient(place);
    assertThat(signedIn(Roles.MANAGER, Credential.NONE).get().get("/patients/" + id).asString())
        .contains("<h2>Trail</h2>");
    assertThat(signedIn(Roles.FRONT_DESK, Credential.NONE).get().get("/patients/" + id).asString())
        .doesNotContain("<h2>Trail</h2>");
  }

  private Browser signedIn(String role, Credential credential) {
    Member member = crew.withPassword(role, credential, place);
    return Crew.signIn(member);
  }

  private static LocalDate born() {
    return LocalDate.of(1980, 5, 17);
  }

  private static Response edit(Browser desk, Long id, String name) {
    return desk.form()
        .formParam("version", "0")
        .formParam("chartNumber", Crew.unique("E-"))
        .formParam("name", name)
        .formParam("birthDate", "1980-05-17")
        .formParam("reachBy", "call")
        .formParam("phone", "555 010 0100")
        .post("/patients/" + id + "/edit");
  }

  private Response answerForm(Browser desk, Long id, Map<String, String> butFor) {
    RequestSpecification form =
        desk.form()
            .formParam("language", "en")
            .formParam("means", "screen")
            .formParam("muscle", "quadriceps")
            .formParam("side", "left")
            .formParam("answeredBy", "Ada Lindqvist");
    intakes
        .questionsFor("quadriceps")
        .forEach(
            question ->
                form.formParam(
                    "answer." + question.key(), butFor.getOrDefault(question.key(), "no")));
    return form.post("/patients/" + id + "/intake");
  }

  private static Response area(Browser who, Long id) {
    return who.form()
        .formParam("muscle", "quadriceps")
        .formParam("side", "left")
        .post("/patients/" + id + "/screening/area");
  }

  private Response screen(Browser who, Long id, Map<String, String> butFor) {
    RequestSpecification form =
        who.form().formParam("muscle", "quadriceps").formParam("side", "left");
    screenings
        .questionsFor("quadriceps")
        .forEach(
            question ->
                form.formParam(
                    "answer." + question.key(), butFor.getOrDefault(question.key(), "no")));
    return form.post("/patients/" + id + "/screening");
  }

  private static Response accept(Browser who, Long id, Long screening, String reason) {
    return who.form()
        .formParam("key", "swelling_postop")
        .formParam("reason", reason)
        .post("/patients/" + id + "/screening/" + screening + "/acceptance");
  }
}
