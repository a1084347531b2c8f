package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.endsWith;
import static org.hamcrest.Matchers.matchesPattern;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The pages of pads, as a manager and a front desk walk them. */
@QuarkusTest
class PadPagesTest {
  @Inject Crew crew;
  @Inject Cupboard cupboard;
  @Inject PadStock stock;
  @Inject Locations locations;

  private Long here;
  private Long there;
  private PadTypeView type;
  private Crew.Browser manager;

  @BeforeEach
  void signIn() {
    here = crew.location(Crew.unique("PADS"));
    there = crew.location(Crew.unique("PADS"));
    type = cupboard.type();
    manager = Crew.signIn(crew.withPassword(Roles.MANAGER, Credential.NONE, here, there));
  }

  @Test
  void every_page_stands_before_anything_was_entered() {
    for (String page :
        new String[] {
          "/pads",
          "/pads/" + type.code(),
          "/pads/drawer-take",
          "/pads/receive",
          "/pads/count",
          "/pads/move",
          "/pads/orders",
          "/pads/orders/new?code=" + type.code() + "&packs=12",
          "/pads/ledger",
          "/pads/types/new",
          "/pads/types/" + type.code()
        }) {
      manager.get().get(page).then().statusCode(200).body(containsString("<h1>"));
    }
  }

  @Test
  void a_manager_orders_receives_and_sees_it_come() {
    String order =
        manager
            .form()
            .formParam("code-1", type.code())
            .formParam("packs-1", "12")
            .post("/pads/orders")
            .then()
            .statusCode(303)
            .extract()
            .header("Location");
    String id = order.substring(order.lastIndexOf('/') + 1);
    manager.get().get("/pads/" + type.code()).then().body(containsString("12 of 12 to come"));

    manager
        .form()
        .formParam("order", id)
        .formParam("code", type.code())
        .formParam("lot", "AB/12-7")
        .formParam("expiresOn", cupboard.today(here).plusDays(500).toString())
        .formParam("packs", "5")
        .post("/pads/receive")
        .then()
        .statusCode(303)
        .header("Location", containsString("/pads/receive?done="));

    manager
        .get()
        .get("/pads/" + type.code())
        .then()
        .body(containsString("7 of 12 to come"), containsString("AB/12-7"));
    manager.get().get("/pads/orders/" + id).then().body(containsString("Receive packs of it"));
  }

  @Test
  void what_was_typed_comes_back_with_the_field_marked() {
    manager
        .form()
        .formParam("code", type.code())
        .formParam("lot", "KEEP-ME")
        .formParam("expiresOn", "not a day")
        .formParam("packs", "0")
        .post("/pads/receive")
        .then()
        .statusCode(422)
        .body(
            containsString("KEEP-ME"),
            containsString("aria-invalid"),
            containsString("must be a day such as"));
  }

  @Test
  void a_scanned_label_fills_the_form_and_enters_nothing() {
    manager
        .form()
        .formParam("scan", "]d201" + "00312345678906" + "17" + "271231" + "10" + "LOT9")
        .post("/pads/receive/scan")
        .then()
        .statusCode(200)
        .body(containsString("value=\"LOT9\""), containsString("value=\"2027-12-31\""));
  }

  @Test
  void a_drawer_take_by_scan_is_one_form_and_can_be_undone() {
    Long lot = cupboard.lot(type, here, "D" + type.code(), 200, 5);
    String done =
        manager
            .form()
            .formParam("scan", "D" + type.code())
            .formParam("packs", "2")
            .formParam("drawerReason", "trial")
            .post("/pads/drawer-take")
            .then()
            .statusCode(303)
            .extract()
            .header("Location");
    manager.get().get(done).then().body(containsString("Taken: 2 of"));
    String line = done.substring(done.indexOf("done=") + 5);

    manager
        .form()
        .formParam("reason", "wrong drawer")
        .post("/pads/ledger/" + line + "/undo")
        .then()
        .statusCode(303);
    manager
        .get()
        .get("/pads/lots/" + lot)
        .then()
        .body(containsString("(undone)"), containsString("mistake reversed"));
    manager.get().get("/pads/ledger/" + line).then().body(containsString("This line was undone"));
  }

  @Test
  void a_lot_is_held_back_and_let_go_again() {
    Long lot = cupboard.lot(type, here, "Q", 200, 5);
    manager
        .form()
        .formParam("reason", "gel is dry")
        .post("/pads/lots/" + lot + "/quarantine")
        .then()
        .statusCode(303);
    manager
        .get()
        .get("/pads/lots/" + lot)
        .then()
        .body(containsString("This lot is quarantined"), containsString("gel is dry"));
    manager.get().get("/pads/" + type.code()).then().body(containsString("5 quarantined"));
    Crew.Browser desk = Crew.signIn(crew.withPassword(Roles.FRONT_DESK, Credential.NONE, here));
    desk.form()
        .formParam("reason", "fine")
        .post("/pads/lots/" + lot + "/release")
        .then()
        .statusCode(403);
    manager
        .form()
        .formParam("reason", "maker tested it")
        .post("/pads/lots/" + lot + "/release")
        .then()
        .statusCode(303);
  }

  @Test
  void packs_move_and_are_counted() {
    Long lot = cupboard.lot(type, here, "M", 200, 5);
    manager
        .form()
        .formParam("lotId", lot)
        .formParam("packs", "2")
        .formParam("to", locations.byId(there).code())
        .post("/pads/move")
        .then()
        .statusCode(303);
    assertThat(cupboard.packs(lot, there)).isEqualTo(2);

    manager
        .form()
        .formParam("lot-" + lot, "1")
        .post("/pads/count")
        .then()
        .statusCode(422)
        .body(containsString("the ledger has 3 packs"));
    manager
        .form()
        .formParam("lot-" + lot, "1")
        .formParam("reason", "nobody wrote it down")
        .post("/pads/count")
        .then()
        .statusCode(303)
        .header("Location", endsWith("lots=1&differences=1"));
    assertThat(cupboard.packs(lot, here)).isEqualTo(1);
  }

  @Test
  void the_page_draws_stock_and_says_why() {
    Long lot = cupboard.lot(type, here, "P", 200, 30);
    for (int i = 0; i < 6; i++) {
      stock.drawerTake(
          new DrawerTake(lot, null, here, 2, DrawerReason.TREATMENT, null, null, null),
          cupboard.now());
    }
    manager
        .get()
        .get("/pads")
        .then()
        .body(
            matchesPattern(
                "(?s).*<svg[^>]*role=\"img\" aria-label=\"18 in the cupboard, 0 coming.*"),
            containsString("drawer takes, "),
            containsString("The same as a table"));
  }

  @Test
  void a_new_type_is_entered_and_changed() {
    String code = cupboard.code();
    manager
        .form()
        .formParam("code", code)
        .formParam("name", "Round " + code)
        .formParam("shape", "round")
        .formParam("widthMm", "50")
        .formParam("connector", "pin-2mm")
        .formParam("padsPerPack", "4")
        .post("/pads/types")
        .then()
        .statusCode(303)
        .header("Location", endsWith("/pads/" + code));
    manager
        .get()
        .get("/pads/" + code)
        .then()
        .body(containsString("2 in round (5 cm round)"), containsString("<ellipse"));
    manager
        .form()
        .formParam("name", "Round " + code)
        .formParam("shape", "round")
        .formParam("widthMm", "50")
        .formParam("heightMm", "70")
        .formParam("connector", "pin-2mm")
        .formParam("padsPerPack", "4")
        .post("/pads/types/" + code)
        .then()
        .statusCode(422)
        .body(containsString("A round pad is as high as it is wide"));
  }
}
