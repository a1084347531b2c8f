package clinic.stimshelf.recall;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.desk.DeskScene;
import clinic.stimshelf.desk.DeskScene.Clinic;
import clinic.stimshelf.desk.DeskScene.Lent;
import clinic.stimshelf.pads.NewPadSet;
import clinic.stimshelf.pads.PadSets;
import clinic.stimshelf.shelf.NewUnit;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.ShelfKeeping;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.web.Roles;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.Map;
import org.hibernate.SessionFactory;
import org.hibernate.stat.Statistics;
import org.junit.jupiter.api.Test;

/**
 * A recall reaches everybody who had it. "List every patient with that lot, contact all, block
 * stock, keep proof of contact" is common practice, no source.
 */
@QuarkusTest
class RecallTest {
  @Inject DeskScene scene;
  @Inject Crew crew;
  @Inject Folk folk;
  @Inject PadSets sets;
  @Inject Shelf shelf;
  @Inject ShelfKeeping keeping;
  @Inject RecallRows rows;
  @Inject RecallReading reading;
  @Inject EntityManager em;
  @Inject SessionFactory factory;

  private Member manager(Clinic clinic) {
    return crew.withPassword(Roles.MANAGER, Credential.NONE, clinic.location());
  }

  private String recallOfLot(Clinic clinic, Member as) {
    return clinic
        .post(
            as,
            "/api/recalls",
            Map.of(
                "lotId", String.valueOf(clinic.lot()),
                "reason", "Gel may come off",
                "reference", "N-77"))
        .statusCode(201)
        .extract()
        .path("id");
  }

  @Test
  void everybodyWhoHadTheLotIsListedAndNoPackLeavesAnyMore() {
    Clinic clinic = scene.clinic();
    Member manager = manager(clinic);
    Lent lent = scene.lent(clinic);
    String id = recallOfLot(clinic, manager);
    clinic
        .desk()
        .script()
        .get("/api/recalls/" + id)
        .then()
        .statusCode(200)
        .body("state", equalTo("open"))
        .body("lot.state", equalTo("recalled"))
        .body("lot.stateReason", equalTo("Recall " + id + ": Gel may come off"))
        .body("people", hasSize(1))
        .body("people[0].patientId", equalTo(String.valueOf(lent.asked().patient())))
        .body("people[0].still", equalTo("yes"))
        .body("people[0].reached", equalTo(false))
        .body("people[0].times.how", hasItem("packs"))
        .body("people[0].times.loanId", hasItem(lent.loan()))
        .body("people[0].name", nullValue())
        .body("progress.open", equalTo(1));
    clinic
        .post(
            clinic.desk(),
            "/api/loans/" + lent.loan() + "/packs",
            Map.of("packs", java.util.List.of(Map.of("lotId", "" + clinic.lot(), "packs", 1))))
        .statusCode(422);
    clinic
        .post(manager, "/api/pad-lots/" + clinic.lot() + "/release", Map.of("reason", "looks fine"))
        .statusCode(422)
        .body("errors[0].message", containsString("Recall " + id));
    clinic
        .post(
            clinic.pt(),
            "/api/recalls",
            Map.of("lotId", String.valueOf(clinic.lot()), "reason", "again"))
        .statusCode(422)
        .body("errors[0].message", containsString("recalled already"));
  }

  @Test
  void whatIsEnteredLateAppearsByItself() {
    Clinic clinic = scene.clinic();
    Member manager = manager(clinic);
    String id = recallOfLot(clinic, manager);
    Long patient = folk.patient(clinic.location());
    clinic.post(manager, "/api/recalls/" + id + "/closure", Map.of("words", "sent back"));
    open(clinic, patient);
    manager
        .script()
        .get("/api/recalls/" + id)
        .then()
        .body("state", equalTo("closed"))
        .body("progress.open", equalTo(1))
        .body("people[0].times[0].how", equalTo("set"))
        .body("people[0].still", equalTo("yes"));
    clinic
        .post(manager, "/api/recalls/" + id + "/reopening", Map.of("words", "one more"))
        .statusCode(200)
        .body("state", equalTo("open"))
        .body("closedAt", nullValue());
  }

  @Test
  void packsThatWereAllOpenedAreNotLookedForAtHome() {
    Clinic clinic = scene.clinic();
    Member manager = manager(clinic);
    Lent lent = scene.lent(clinic);
    String path = "/api/recalls/" + recallOfLot(clinic, manager);
    scene.at(DeskScene.START.plusDays(1), "10:00");
    clinic.post(clinic.desk(), "/api/loans/" + lent.loan() + "/return", Map.of()).statusCode(200);
    var before = manager.script().get(path).then().extract().jsonPath();
    assertThat(before.getString("people[0].times.findAll { it.how == 'packs' }[0].what"))
        .doesNotContain("all opened");
    assertThat(before.getString("people[0].still")).isEqualTo("maybe");

    for (int set = 0; set < 6; set++) {
      openAndEnd(clinic, lent.asked().patient());
    }

    manager
        .script()
        .get(path)
        .then()
        .body("people[0].still", equalTo("no"))
        .body(
            "people[0].times.findAll { it.how == 'packs' }[0].what",
            containsString("given, all opened"));
  }

  @ActivateRequestContext
  void openAndEnd(Clinic clinic, Long patient) {
    open(clinic, patient);
    QuarkusTransaction.requiringNew()
        .run(
            () ->
                em.createNativeQuery(
                        "update pad_set set closed_on = opened_on where patient_id = :patient and"
                            + " closed_on is null")
                    .setParameter("patient", patient)
                    .executeUpdate());
  }

  @ActivateRequestContext
  void open(Clinic clinic, Long patient) {
    sets.open(
        new NewPadSet(
            patient,
            null,
            clinic.location(),
            clinic.pad(),
            clinic.lot(),
            4,
            "thigh",
            DeskScene.START.minusDays(3)),
        scene.now());
  }

  @Test
  void itIsClosedOnlyWhenEverybodyIsReachedOrLeftWithAReason() {
    Clinic clinic = scene.clinic();
    Member manager = manager(clinic);
    Long[] people = {
      folk.patient(clinic.location()),
      folk.patient(clinic.location()),
      folk.patient(clinic.location())
    };
    for (Long patient : people) {
      open(clinic, patient);
    }
    String path = "/api/recalls/" + recallOfLot(clinic, manager);
    clinic
        .post(manager, path + "/closure", Map.of())
        .statusCode(422)
        .body("errors.field", hasItem("words"))
        .body("errors.findAll { it.field == 'people' }", hasSize(3));
    reach(clinic, path, people[0], "reached").statusCode(200);
    reach(clinic, path, people[1], "voicemail").statusCode(200);
    reach(clinic, path, people[2], "family").statusCode(422);
    clinic
        .post(
            clinic.desk(),
            path + "/contacts",
            Map.of(
                "patientId", "" + people[1],
                "outcome", "family",
                "spokeWith", "her sister"))
        .statusCode(200)
        .body("progress.reached", equalTo(1));
    clinic
        .post(
            clinic.pt(),
            path + "/excuses",
            Map.of("patientId", "" + people[2], "reason", "moved away"))
        .statusCode(422)
        .body("errors[0].message", containsString("Nobody has tried"));
    clinic
        .post(
            clinic.desk(),
            path + "/contacts",
            Map.of("patientId", "" + people[2], "outcome", "letter", "proof", "R 123 456"))
        .statusCode(200);
    for (int one : new int[] {1, 2}) {
      clinic
          .post(
              clinic.pt(),
              path + "/excuses",
              Map.of("patientId", "" + people[one], "reason", "letter came back"))
          .statusCode(200);
    }
    clinic.post(clinic.desk(), path + "/closure", Map.of("words", "x")).statusCode(403);
    clinic
        .post(manager, path + "/closure", Map.of("words", "Packs sent back on March 5."))
        .statusCode(200)
        .body("state", equalTo("closed"))
        .body("progress.reached", equalTo(1))
        .body("progress.excused", equalTo(2))
        .body("people.find { it.excuse == null }.contacts[0].by", containsString("Person"));
    clinic
        .post(manager, "/api/pad-lots/" + clinic.lot() + "/release", Map.of("reason", "fine"))
        .statusCode(200);
  }

  private io.restassured.response.ValidatableResponse reach(
      Clinic clinic, String path, Long patient, String outcome) {
    return clinic.post(
        clinic.desk(), path + "/contacts", Map.of("patientId", "" + patient, "outcome", outcome));
  }

  @Test
  void aUnitIsHeldWithThePatientAndStaysHeldWhenItIsBack() {
    Clinic clinic = scene.clinic();
    Lent lent = scene.lent(clinic);
    String id =
        clinic
            .post(clinic.desk(), "/api/recalls", Map.of("unitTag", lent.unit(), "reason", "Sparks"))
            .statusCode(201)
            .body("units[0].away", equalTo(true))
            .body("units[0].held", equalTo(true))
            .body("people[0].still", equalTo("yes"))
            .body("people[0].times[0].how", equalTo("loan"))
            .extract()
            .path("id");
    clinic.scan(lent.unit()).body("actions.words", hasItem("Check in unit"));
    scene.at(DeskScene.START.plusDays(1), "10:00");
    clinic.post(clinic.desk(), "/api/loans/" + lent.loan() + "/return", Map.of()).statusCode(200);
    assertThat(unit(lent.unit()).state().word()).isEqualTo("out-of-service");
    clinic
        .post(clinic.pt(), "/api/units/" + lent.unit() + "/to-inspection", Map.of())
        .statusCode(422)
        .body("errors[0].message", containsString("Recall " + id));
    clinic
        .desk()
        .script()
        .get("/api/recalls/" + id)
        .then()
        .body("people[0].still", equalTo("no"))
        .body("people[0].times[0].to", equalTo(DeskScene.START.plusDays(1).toString()));
  }

  @ActivateRequestContext
  UnitView unit(String tag) {
    return shelf.byTag(tag);
  }

  @Test
  void serialNumbersFromToHoldUnitsThatCameLaterToo() {
    Clinic clinic = scene.clinic();
    String nine = withSerial(clinic, "KX-9");
    String ten = withSerial(clinic, "KX-10");
    String path =
        "/api/recalls/"
            + clinic
                .post(
                    clinic.pt(),
                    "/api/recalls",
                    Map.of(
                        "kind", clinic.kind(),
                        "serialFrom", "KX-10",
                        "serialTo", "KX-20",
                        "reason", "Battery"))
                .statusCode(201)
                .body("units.tag", equalTo(java.util.List.of(ten)))
                .extract()
                .path("id");
    assertThat(unit(nine).state().word()).isEqualTo("to-inspect");
    assertThat(unit(ten).state().word()).isEqualTo("out-of-service");
    String later = withSerial(clinic, "KX-012");
    clinic
        .desk()
        .script()
        .get(path)
        .then()
        .body("units.find { it.tag == '" + later + "' }.held", equalTo(false))
        .body("against", hasItem(containsString(later)));
    clinic
        .post(clinic.desk(), path + "/hold", Map.of())
        .statusCode(200)
        .body("against", hasSize(0));
    clinic
        .post(
            clinic.pt(),
            "/api/recalls",
            Map.of("kind", clinic.kind(), "serialFrom", "KX-5", "serialTo", "KX-1", "reason", " "))
        .statusCode(422)
        .body("errors.field", hasItem("reason"))
        .body("errors.field", hasItem("serialFrom"));
  }

  @ActivateRequestContext
  String withSerial(Clinic clinic, String serial) {
    return keeping.addUnit(
        new NewUnit(
            null,
            serial,
            clinic.kind(),
            clinic.location(),
            null,
            "both",
            DeskScene.START.plusMonths(9),
            null,
            null,
            null));
  }

  @Test
  void peopleOfOtherLocationsAreCountedButNotShown() {
    Clinic clinic = scene.clinic();
    Member manager = manager(clinic);
    Long elsewhere = crew.location(Crew.unique("far"));
    Long stranger = folk.patient(elsewhere);
    open(clinic, stranger);
    String path = "/api/recalls/" + recallOfLot(clinic, manager);
    manager
        .script()
        .get(path)
        .then()
        .body("people", hasSize(0))
        .body("elsewhere", equalTo(1))
        .body("progress.people", equalTo(1));
    reach(clinic, path, stranger, "reached").statusCode(404);
    clinic.post(manager, path + "/closure", Map.of("words", "x")).statusCode(422);
  }

  @Test
  void thePagesLeadFromTheLotToTheCallAndKeepWhatWasTyped() {
    Clinic clinic = scene.clinic();
    Member manager = manager(clinic);
    Lent lent = scene.lent(clinic);
    Crew.Browser browser = Crew.signIn(manager);
    browser
        .get()
        .get("/pads/lots/" + clinic.lot())
        .then()
        .body(containsString("/recalls/new?lot=" + clinic.lot()));
    browser
        .form()
        .formParam("lotNumber", clinic.lotNumber())
        .formParam("reference", "N-<1>")
        .post("/recalls/new")
        .then()
        .statusCode(422)
        .body(containsString("What is wrong is missing."))
        .body(containsString("value=\"N-&lt;1&gt;\""));
    String page =
        browser
            .form()
            .formParam("lotNumber", clinic.lotNumber())
            .formParam("reason", "Gel may come off")
            .post("/recalls/new")
            .then()
            .statusCode(303)
            .extract()
            .header("Location")
            .replaceAll("\\?.*", "")
            .replaceAll("^https?://[^/]*", "");
    String call = page + "/people/" + lent.asked().patient();
    browser
        .get()
        .get(page)
        .then()
        .body(containsString("1 of 1 still to reach"))
        .body(containsString("<b class=\"name\">Ada Lindqvist</b>"))
        .body(containsString(call));
    Crew.signIn(clinic.desk())
        .get()
        .get("/front-desk")
        .then()
        .body(containsString("lot " + clinic.lotNumber() + ".</b> 1 of 1 still to reach"));
    Crew.signIn(clinic.pt())
        .get()
        .get("/needs-me")
        .then()
        .body(containsString("Recalled: not reached yet"))
        .body(containsString(call));
    browser
        .form()
        .formParam("note", "rang twice <b>")
        .post(call)
        .then()
        .statusCode(422)
        .body(containsString("What came of it?"))
        .body(containsString("rang twice &lt;b&gt;"));
    browser.form().formParam("outcome", "reached").post(call).then().statusCode(303);
    browser
        .get()
        .get(page + "/list")
        .then()
        .body(containsString("1 reached, 0 left with a reason, 0 open"))
        .body(containsString("reached: was told and understood"));
    browser
        .get()
        .get("/patients/" + lent.asked().patient())
        .then()
        .body(containsString("<h2>Recalls</h2>"));
    browser.form().formParam("words", "Sent back.").post(page + "/closure").then().statusCode(303);
    browser
        .get()
        .get("/patients/" + lent.asked().patient())
        .then()
        .body(not(containsString("<h2>Recalls</h2>")));
  }

  @Test
  @ActivateRequestContext
  void aHundredPeopleAreReadWithAsManyQuestionsAsTwo() {
    Clinic clinic = scene.clinic();
    Member manager = manager(clinic);
    for (int i = 0; i < 2; i++) {
      open(clinic, folk.patient(clinic.location()));
    }
    Long id = Long.valueOf(recallOfLot(clinic, manager));
    long few = asked(id);
    for (int i = 0; i < 8; i++) {
      open(clinic, folk.patient(clinic.location()));
    }
    assertThat(asked(id)).isEqualTo(few).isLessThan(12);
  }

  private long asked(Long id) {
    Statistics statistics = factory.getStatistics();
    statistics.setStatisticsEnabled(true);
    return QuarkusTransaction.requiringNew()
        .call(
            () -> {
              Recall row = rows.findById(id);
              statistics.clear();
              assertThat(reading.people(row, DeskScene.ZONE)).isNotEmpty();
              long count = statistics.getPrepareStatementCount();
              statistics.setStatisticsEnabled(false);
              return count;
            });
  }
}
