package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.PostOffice;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import com.icegreen.greenmail.util.GreenMailUtil;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** An order on its way: to the supplier, late, asked after, and whose stock it is. */
@QuarkusTest
class OrdersGoOutTest {
  @Inject Crew crew;
  @Inject Cupboard cupboard;
  @Inject Supply supply;
  @Inject PadLots lots;
  @Inject PadCatalog catalog;
  @Inject PadWear wear;
  @Inject PadSets sets;
  @Inject PadStock stock;
  @Inject PostOffice post;

  private Long here;
  private PadTypeView type;
  private Crew.Browser manager;

  @BeforeEach
  void signIn() {
    here = crew.location(Crew.unique("ORDER"));
    type = cupboard.type();
    manager = Crew.signIn(crew.withPassword(Roles.MANAGER, Credential.NONE, here));
  }

  private Long order(int daysAgo) {
    return supply.order(
        new NewOrder(
            here,
            null,
            cupboard.today(here).minusDays(daysAgo),
            null,
            null,
            List.of(new NewOrder.Line(type.code(), 12, null))),
        cupboard.now());
  }

  @Test
  void an_order_goes_to_the_supplier_by_mail_and_the_address_is_there_next_time() {
    Long order = order(0);
    String to = Crew.unique("orders") + "@example.com";

    manager
        .form()
        .formParam("to", to)
        .post("/pads/orders/" + order + "/mail")
        .then()
        .statusCode(303);

    assertThat(post.mailTo(to)).hasSize(1);
    assertThat(GreenMailUtil.getBody(post.mailTo(to).get(0)))
        .contains("12 packs  " + type.code())
        .contains(type.name());
    assertThat(supply.byId(order).mailedTo()).isEqualTo(to);
    manager.get().get("/pads/orders/" + order(0)).then().body(containsString(to));
    manager
        .form()
        .formParam("to", "nobody")
        .post("/pads/orders/" + order + "/mail")
        .then()
        .statusCode(422)
        .body(containsString("is no e-mail address"), containsString("value=\"nobody\""));
  }

  @Test
  void receiving_an_order_for_one_pad_type_has_the_type_chosen() {
    manager
        .get()
        .queryParam("order", "" + order(0))
        .get("/pads/receive")
        .then()
        .statusCode(200)
        .body(containsString("<option value=\"" + type.code() + "\" selected>"));
  }

  @Test
  void the_file_of_an_order_has_a_line_for_each_pad_type() {
    String file =
        manager
            .get()
            .get("/pads/orders/" + order(0) + "/csv")
            .then()
            .statusCode(200)
            .extract()
            .asString();

    assertThat(file)
        .contains("order,ordered_on,location,supplier,code,name,packs,price")
        .contains("Larch Supply," + type.code() + "," + type.name() + ",12,7.5");
  }

  @Test
  void an_order_that_should_have_come_is_late_until_a_new_day_is_named() {
    Long order = order(10);

    assertThat(supply.byId(order).lateDays()).as("seven days are set for the type").isEqualTo(3);
    assertThat(supply.late(List.of(here))).extracting(OrderView::id).contains("" + order);
    manager.get().get("/pads").then().body(containsString("An order is 3 days late"));
    assertThatThrownBy(() -> supply.asked(order, null, " ", cupboard.now()))
        .isInstanceOf(Refusal.class);

    manager
        .form()
        .formParam("expectedOn", cupboard.today(here).plusDays(2).toString())
        .formParam("words", "on its way")
        .post("/pads/orders/" + order + "/asked")
        .then()
        .statusCode(303);

    assertThat(supply.late(List.of(here))).isEmpty();
    assertThat(supply.byId(order).dueOn()).isEqualTo(cupboard.today(here).plusDays(2));
    manager.get().get("/pads").then().body(not(containsString("days late")));
  }

  @Test
  void one_order_is_proposed_for_all_that_is_due_from_a_supplier() {
    PadTypeView other = cupboard.type();
    for (PadTypeView due : List.of(type, other)) {
      stock.drawerTake(
          new DrawerTake(
              cupboard.lot(due, here, "LAST", 300, 1),
              null,
              here,
              1,
              DrawerReason.TRIAL,
              null,
              null,
              null),
          cupboard.now());
    }
    manager
        .get()
        .get("/pads")
        .then()
        .body(containsString("One order for all 2 due from Larch Supply"));
    String page =
        manager
            .get()
            .queryParam("supplier", "Larch Supply")
            .get("/pads/orders/new")
            .then()
            .statusCode(200)
            .extract()
            .asString();
    assertThat(page).contains("value=\"Larch Supply\"");
    assertThat(page).contains("<option value=\"" + type.code() + "\" selected>");
    assertThat(page).contains("<option value=\"" + other.code() + "\" selected>");
  }

  @Test
  void a_lot_on_consignment_stays_the_suppliers_as_a_whole() {
    manager
        .form()
        .formParam("code", type.code())
        .formParam("lot", "CONS")
        .formParam("expiresOn", cupboard.today(here).plusDays(300).toString())
        .formParam("packs", "5")
        .formParam("consigned", "true")
        .post("/pads/receive")
        .then()
        .statusCode(303);
    Long lot = cupboard.lotId(type, "CONS");

    assertThat(lots.byId(lot, List.of(here)).consigned()).isTrue();
    manager.get().get("/pads/lots/" + lot).then().body(containsString("on consignment"));
    assertThatThrownBy(() -> cupboard.lot(type, here, "CONS", 300, 2))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("the supplier’s");
  }

  @Test
  void batteries_are_stocked_and_ordered_and_never_wear() {
    String code = cupboard.code();
    manager
        .form()
        .formParam("code", code)
        .formParam("name", "9 V battery " + code)
        .formParam("shape", "supply")
        .formParam("padsPerPack", "1")
        .post("/pads/types")
        .then()
        .statusCode(303);
    PadTypeView battery = catalog.byCode(code);
    cupboard.lot(battery, here, "B1", 500, 4);

    assertThat(battery.wears()).isFalse();
    manager
        .get()
        .get("/pads/" + code)
        .then()
        .statusCode(200)
        .body(not(containsString("planned life")));
    manager.get().get("/pads").then().statusCode(200).body(containsString("9 V battery " + code));
    assertThat(wear.plannedUses(here)).doesNotContainKey(code);
    Long patient = cupboard.patient(here);
    assertThatThrownBy(
            () ->
                sets.open(
                    new NewPadSet(patient, null, here, code, null, 1, null, cupboard.today(here)),
                    cupboard.now()))
        .isInstanceOf(Refusal.class);
  }

  @Test
  void a_cancelled_order_is_not_sent() {
    Long order = order(0);
    supply.cancel(order, "ordered elsewhere", cupboard.now());
    String to = Crew.unique("orders") + "@example.com";

    manager
        .form()
        .formParam("to", to)
        .post("/pads/orders/" + order + "/mail")
        .then()
        .statusCode(422)
        .body(containsString("Make a new order"));

    assertThat(post.mailTo(to)).isEmpty();
  }

  @Test
  void an_order_whose_sending_broke_off_says_so() {
    Long order = order(0);
    supply.mailBegins(order, "orders@example.com");

    manager
        .get()
        .get("/pads/orders/" + order)
        .then()
        .body(containsString("ask the supplier whether it came"));
  }
}
