package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.endsWith;
import static org.hamcrest.Matchers.not;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.specification.RequestSpecification;
import jakarta.inject.Inject;
import java.time.Duration;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The shelf's pages: every form is a plain post, and what was typed comes back. */
@QuarkusTest
class UnitPagesTest {
  @Inject Crew crew;
  @Inject ShelfScene scene;
  @Inject Shelf shelf;
  @Inject ShelfKeeping keeping;

  private Long location;
  private String kind;
  private String tag;

  @BeforeEach
  void aUnit() {
    location = scene.location();
    kind = scene.kind(2);
    tag = scene.readyUnit(location, kind).tag();
  }

  @Test
  void theShelfStandsAsBoardsWithEveryUnit() {
    Long spot = keeping.addSpot(location, "Cupboard A, board 1", 1);
    keeping.move(tag, location, spot, scene.now());
    String loose = scene.newUnit(location, kind);
    signIn(Roles.FRONT_DESK)
        .get()
        .get("/units")
        .then()
        .statusCode(200)
        .body(containsString("2 of 2 units are here"))
        .body(containsString("Cupboard A, board 1"))
        .body(containsString("No storage spot yet"))
        .body(containsString("href=\"/units/" + tag + "\""))
        .body(containsString("href=\"/units/" + loose + "\""))
        .body(not(containsString("href=\"/new-unit\"")));
  }

  @Test
  void aListIsNarrowedByStateAndAnEmptyOneSaysSo() {
    Browser browser = signIn(Roles.FRONT_DESK);
    browser.get().get("/units?state=missing").then().body(containsString("No unit is like that"));
    browser
        .get()
        .get("/units?state=ready&kind=" + kind)
        .then()
        .body(containsString("<th scope=\"row\"><a href=\"/units/" + tag));
  }

  @Test
  void aLocationWithoutUnitsSaysHowToBegin() {
    Long empty = scene.location();
    Crew.signIn(crew.withPassword(Roles.MANAGER, Credential.NONE, empty))
        .get()
        .get("/units")
        .then()
        .statusCode(200)
        .body(containsString("No units yet"))
        .body(containsString("/unit-kinds"));
  }

  @Test
  void aUnitShowsStateTestChargeKitAndHistoryToEachRole() {
    shelf.begin(
        shelf.byTag(tag).id(),
        UseKind.LOAN,
        5L,
        scene.now().at(),
        scene.in(Duration.ofDays(20)),
        scene.now());
    for (String role : new String[] {Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER}) {
      signIn(role)
          .get()
          .get("/units/" + tag)
          .then()
          .statusCode(200)
          .body(containsString("on loan"))
          .body(containsString("expected back"))
          .body(containsString("Next safety test"))
          .body(containsString(tag + "-L1"))
          .body(containsString("may be owed"))
          .body(containsString("class=\"timeline\""))
          .body(containsString("too few for a rate"));
    }
  }

  @Test
  void everyStateHasAPage() {
    Browser manager = signIn(Roles.MANAGER);
    Browser desk = signIn(Roles.FRONT_DESK);
    for (UnitState state : UnitState.values()) {
      scene.set(
          tag,
          unit -> {
            unit.state = state;
            unit.stateReason = "a reason";
            unit.wipeCountsAt = state == UnitState.TO_WIPE ? scene.in(Duration.ofMinutes(3)) : null;
          });
      manager.get().get("/units/" + tag).then().statusCode(200).body(containsString("a reason"));
      desk.get().get("/units/" + tag).then().statusCode(200);
      desk.get().get("/units").then().statusCode(200);
    }
  }

  @Test
  void aWipeIsAScanAndEnter() {
    Browser desk = signIn(Roles.FRONT_DESK);
    toWipe();
    desk.get()
        .get("/wipe")
        .then()
        .statusCode(200)
        .body(containsString(tag))
        .body(containsString("autofocus"));
    desk.form()
        .formParam("tag", " " + tag.toLowerCase() + "\r")
        .formParam("product", "gray-tub")
        .post("/wipe")
        .then()
        .statusCode(303)
        .header("Location", containsString("/wipe?done=" + tag));
    desk.get()
        .get("/wipe?done=" + tag + "&product=gray-tub")
        .then()
        .body(containsString("is wiped; it counts from"))
        .body(containsString("<option value=\"gray-tub\" selected>"));
    assertThat(shelf.byTag(tag).readyAt()).isNotNull();
  }

  @Test
  void aWrongScanComesBackWithWhatWasTypedAndMarked() {
    signIn(Roles.FRONT_DESK)
        .form()
        .formParam("tag", "NOBODY-9")
        .formParam("product", "blue-tub")
        .post("/wipe")
        .then()
        .statusCode(422)
        .body(containsString("value=\"NOBODY-9\""))
        .body(containsString("aria-invalid=\"true\""))
        .body(containsString("<option value=\"blue-tub\" selected>"));
    signIn(Roles.FRONT_DESK)
        .form()
        .formParam("tag", tag)
        .post("/wipe")
        .then()
        .statusCode(422)
        .body(containsString("is ready, so it cannot be wiped"));
  }

  @Test
  void aFormLeadsBackToOwnPathsOnly() {
    Browser desk = signIn(Roles.FRONT_DESK);
    toWipe();
    desk.form()
        .formParam("back", "/?queue=wipe")
        .post("/units/" + tag + "/wiped")
        .then()
        .statusCode(303)
        .header("Location", endsWith("/?queue=wipe"));
    for (String elsewhere :
        new String[] {"//example.org/", "https://example.org/", "/\\example.org", "units"}) {
      desk.form()
          .formParam("back", elsewhere)
          .post("/units/" + tag + "/charged")
          .then()
          .statusCode(303)
          .header("Location", endsWith("/units/" + tag + "?done=charged"));
    }
  }

  @Test
  void anInspectionThatIsNotFinishedComesBackWithItsAnswers() {
    Browser therapist = signIn(Roles.THERAPIST);
    scene.set(tag, unit -> unit.state = UnitState.TO_INSPECT);
    therapist
        .get()
        .get("/units/" + tag + "/inspection")
        .then()
        .statusCode(200)
        .body(not(containsString("value=\"yes\" checked")));
    therapist
        .form()
        .formParam("answers.case-whole", "yes")
        .formParam("note", "smells of lotion")
        .post("/units/" + tag + "/inspected")
        .then()
        .statusCode(422)
        .body(containsString("name=\"answers.case-whole\" value=\"yes\" checked"))
        .body(containsString("smells of lotion"))
        .body(containsString("Answer yes or no."));
    RequestSpecification all = therapist.form();
    scene.answers(true).keySet().forEach(key -> all.formParam("answers." + key, "yes"));
    all.post("/units/" + tag + "/inspected")
        .then()
        .statusCode(303)
        .header("Location", endsWith("?done=inspected"));
  }

  @Test
  void theFrontDeskIsNotOfferedAnInspection() {
    scene.set(tag, unit -> unit.state = UnitState.TO_INSPECT);
    Browser desk = signIn(Roles.FRONT_DESK);
    desk.get()
        .get("/units/" + tag)
        .then()
        .body(containsString("A therapist or manager inspects it."));
    desk.get().get("/units/" + tag + "/inspection").then().statusCode(403);
  }

  @Test
  void outOfServiceWithoutAReasonComesBackOpenAndMarked() {
    signIn(Roles.FRONT_DESK)
        .form()
        .formParam("cause", "drop")
        .post("/units/" + tag + "/out-of-service")
        .then()
        .statusCode(422)
        .body(containsString("Say why the unit is taken out of service."))
        .body(containsString("<option value=\"drop\" selected>"));
  }

  @Test
  void everyActionOfAUnitIsAPlainPost() {
    Browser manager = signIn(Roles.MANAGER);
    act(manager, "reserve", "for", "open house");
    assertThat(state()).isEqualTo(UnitState.RESERVED);
    act(manager, "release");
    act(manager, "charging");
    act(manager, "charged");
    act(manager, "safety-test", "testedOn", "2026-01-05", "result", "passed");
    act(manager, "change", "purpose", "home", "useCounter", "120");
    assertThat(shelf.byTag(tag).purpose()).isEqualTo("home");
    act(manager, "trouble", "words", "dim display");
    assertThat(state()).isEqualTo(UnitState.OUT_OF_SERVICE);
    act(manager, "out-of-service", "cause", "repair", "reason", "to the bench");
    act(manager, "to-inspection");
    assertThat(state()).isEqualTo(UnitState.TO_INSPECT);
    act(manager, "retire", "reason", "worn");
    assertThat(state()).isEqualTo(UnitState.RETIRED);
    act(manager, "out-of-service", "cause", "other", "reason", "a second look");
    assertThat(state()).isEqualTo(UnitState.OUT_OF_SERVICE);
  }

  @Test
  void aReservedUnitIsNotReservedAgain() {
    shelf.reserve(shelf.byTag(tag).id(), 9L, scene.now());
    signIn(Roles.FRONT_DESK)
        .form()
        .formParam("for", "open house")
        .post("/units/" + tag + "/reserve")
        .then()
        .statusCode(409)
        .body(containsString("reserved for another request"));
  }

  @Test
  void aKitIsChangedPartByPart() {
    Browser desk = signIn(Roles.FRONT_DESK);
    Long charger = shelf.byTag(tag).contents().get(1).id();
    String kit = "/units/" + tag + "/kit";
    desk.get().get(kit).then().statusCode(200).body(containsString(tag + "-C1"));
    desk.form().post(kit + "/" + charger + "/missing").then().statusCode(303);
    assertThat(shelf.byTag(tag).contents().get(1).present()).isFalse();
    desk.form().post(kit + "/" + charger + "/back").then().statusCode(303);
    desk.form().formParam("part", "spare-leads").formParam("owed", "yes").post(kit);
    assertThat(shelf.byTag(tag).contents())
        .last()
        .satisfies(
            part -> {
              assertThat(part.tag()).isEqualTo(tag + "-S1");
              assertThat(part.essential()).isFalse();
            });
    desk.form().formParam("name", "a part").post(kit).then().statusCode(422);
    String other = scene.newUnit(location, kind);
    Long foreign = shelf.byTag(other).contents().get(0).id();
    desk.form().post(kit + "/" + foreign + "/remove").then().statusCode(404);
  }

  @Test
  void tagsArePrintedOnTheStockOfTheClinic() {
    Browser desk = signIn(Roles.FRONT_DESK);
    desk.get()
        .get("/units/" + tag + "/labels")
        .then()
        .statusCode(200)
        .body(containsString("<svg"))
        .body(containsString(tag + "-L1"));
    desk.get()
        .get("/units/" + tag + "/labels/sheet?stock=letter-30&symbol=bars&used=2&thing=" + tag)
        .then()
        .statusCode(200)
        .body(containsString("<title>Tag " + tag + "</title>"))
        .body(not(containsString("<title>Tag " + tag + "-L1</title>")))
        .body(not(containsString("style=")));
    desk.get()
        .get("/label-stock/letter-30.css")
        .then()
        .statusCode(200)
        .body(containsString("@page"));
  }

  @Test
  void aManagerAddsKindSpotAndUnit() {
    Browser manager = signIn(Roles.MANAGER);
    String code = ShelfScene.unique("four");
    manager.get().get("/unit-kinds/form").then().statusCode(200);
    manager
        .form()
        .formParam("code", code)
        .formParam("name", "Four channels, table top")
        .formParam("channels", "4")
        .formParam("connector", "pin-2mm")
        .formParam("output", "level")
        .formParam("lendsOut", "yes")
        .formParam("count-lead-set", "2")
        .post("/unit-kinds")
        .then()
        .statusCode(303);
    assertThat(keeping.kind(code).contents()).hasSize(2);
    manager.get().get("/unit-kinds").then().statusCode(200).body(containsString(code));
    manager
        .form()
        .formParam("code", code)
        .formParam("name", "")
        .formParam("channels", "many")
        .post("/unit-kinds")
        .then()
        .statusCode(422)
        .body(containsString("value=\"many\""));
    manager
        .get()
        .get("/unit-kinds/form?code=" + code)
        .then()
        .statusCode(200)
        .body(containsString("Four channels, table top"));
    manager
        .form()
        .formParam("name", "Drawer 3")
        .formParam("position", "3")
        .post("/storage-spots")
        .then()
        .statusCode(303);
    manager.get().get("/storage-spots").then().statusCode(200).body(containsString("Drawer 3"));
    manager.get().get("/new-unit").then().statusCode(200).body(containsString("Drawer 3"));
    String fresh = ShelfScene.unique("F");
    manager
        .form()
        .formParam("tag", fresh)
        .formParam("serial", "A1")
        .formParam("kind", code)
        .formParam("purpose", "both")
        .post("/new-unit")
        .then()
        .statusCode(303);
    assertThat(shelf.byTag(fresh).contents()).hasSize(2);
    manager
        .form()
        .formParam("tag", fresh)
        .formParam("kind", code)
        .post("/new-unit")
        .then()
        .statusCode(422)
        .body(containsString("Another unit has the tag"));
  }

  @Test
  void theFleetIsTheManagersMatter() {
    Browser desk = signIn(Roles.FRONT_DESK);
    for (String page : new String[] {"/new-unit", "/unit-kinds", "/storage-spots"}) {
      desk.get().get(page).then().statusCode(403);
    }
    desk.form().formParam("reason", "x").post("/units/" + tag + "/retire").then().statusCode(403);
  }

  @Test
  void aUnitOfAnotherLocationIsNotThere() {
    String other = scene.newUnit(scene.location(), kind);
    Browser desk = signIn(Roles.FRONT_DESK);
    desk.get().get("/units/" + other).then().statusCode(404);
    desk.form().post("/units/" + other + "/charged").then().statusCode(404);
    desk.form().formParam("tag", other).post("/wipe").then().statusCode(422);
  }

  private void act(Browser browser, String what, String... fields) {
    RequestSpecification form = browser.form();
    for (int i = 0; i < fields.length; i += 2) {
      form.formParam(fields[i], fields[i + 1]);
    }
    form.post("/units/" + tag + "/" + what).then().statusCode(303);
  }

  private void toWipe() {
    scene.set(
        tag,
        unit -> {
          unit.state = UnitState.TO_WIPE;
          unit.needsWipe = true;
        });
  }

  private UnitState state() {
    return shelf.byTag(tag).state();
  }

  private Browser signIn(String role) {
    Credential credential = role.equals(Roles.THERAPIST) ? Credential.PT : Credential.NONE;
    return Crew.signIn(crew.withPassword(role, credential, location));
  }
}
