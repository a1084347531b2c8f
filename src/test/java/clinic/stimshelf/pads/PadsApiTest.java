package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.greaterThanOrEqualTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.hasKey;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.notNullValue;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import io.restassured.specification.RequestSpecification;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Pads over the API, with the names that stay. */
@QuarkusTest
class PadsApiTest {
  @Inject Crew crew;
  @Inject Cupboard cupboard;
  @Inject PadStock stock;
  @Inject KnownDemand known;
  @Inject Locations locations;

  private Long here;
  private String place;
  private Long there;
  private PadTypeView type;
  private Crew.Member manager;
  private Crew.Member desk;

  @BeforeEach
  void ownCupboard() {
    here = crew.location(Crew.unique("API"));
    there = crew.location(Crew.unique("API"));
    place = locations.byId(here).code();
    type = cupboard.type();
    manager = crew.member(Roles.MANAGER, Credential.NONE, here, there);
    desk = crew.member(Roles.FRONT_DESK, Credential.NONE, here);
  }

  @Test
  void a_pad_type_shows_its_position_under_the_names_that_stay() {
    cupboard.lot(type, here, "A/1", 200, 9);
    manager
        .script()
        .get("/api/pads?size=200&location=" + place)
        .then()
        .statusCode(200)
        .body(
            "items.find { it.code == '" + type.code() + "' }.onHand",
            equalTo(9),
            "items.find { it.code == '" + type.code() + "' }.location",
            equalTo(place),
            "items[0]",
            hasKey("quarantined"),
            "items[0]",
            hasKey("expired"),
            "items[0]",
            hasKey("owed"),
            "items[0]",
            hasKey("onOrder"),
            "items[0]",
            hasKey("position"),
            "items[0]",
            hasKey("committed"),
            "items[0]",
            hasKey("reorderPoint"),
            "items[0]",
            hasKey("orderQuantity"),
            "items[0]",
            hasKey("coverDays"));
    manager
        .script()
        .get("/api/pads/" + type.code() + "?location=" + place)
        .then()
        .body("onHand", equalTo(9), "lots[0].lot", equalTo("A/1"), "type.price", equalTo("7.5000"));
    desk.script()
        .get("/api/pads/" + type.code())
        .then()
        .body("onHand", equalTo(9), "type.price", nullValue());
    desk.script().get("/api/pads/no-such-type").then().statusCode(404);
  }

  @Test
  void the_reorder_answer_sums_and_projects() {
    known.at(
        here,
        List.of(
            new DatedPacks(type.code(), cupboard.today(here).plusDays(2), 3, "a program", false)),
        0);
    String path = "/api/pads/" + type.code() + "/reorder?location=" + place;
    Map<String, Object> answer =
        desk.script()
            .get(path)
            .then()
            .statusCode(200)
            .body(
                "position", equalTo(0),
                "reorderPoint", equalTo(3),
                "orderQuantity", equalTo(4),
                "serviceLevel", notNullValue(),
                "meanDemand", equalTo(3.0f),
                "sdDemand", equalTo(0.0f),
                "safetyStock", equalTo(0.0f),
                "reasons.kind", hasItems("program", "safety"),
                "projection.size()", greaterThanOrEqualTo(28),
                "projection[0]", hasKey("stockoutChance"),
                "projection[0].date", equalTo(cupboard.today(here).toString()))
            .extract()
            .jsonPath()
            .getMap("");
    BigDecimal sum = BigDecimal.ZERO;
    for (Object reason : (List<?>) answer.get("reasons")) {
      sum = sum.add(new BigDecimal(((Map<?, ?>) reason).get("packs").toString()));
    }
    assertThat(sum).isEqualByComparingTo("3");
  }

  @Test
  void a_drawer_take_and_its_undoing_stand_in_the_ledger() {
    Long lot = cupboard.lot(type, here, "D", 200, 5);
    String id =
        json(desk)
            .body(
                Map.of(
                    "lotId",
                    "" + lot,
                    "packs",
                    -2,
                    "reason",
                    "drawer-take",
                    "drawerReason",
                    "trial"))
            .post("/api/stock-movements")
            .then()
            .statusCode(201)
            .body(
                "packs",
                equalTo(-2),
                "lot",
                equalTo("D"),
                "reason",
                equalTo("drawer-take"),
                "reverses",
                nullValue(),
                "loanId",
                nullValue())
            .extract()
            .path("id");
    json(desk)
        .body(Map.of("reverses", id, "note", "wrong drawer"))
        .post("/api/stock-movements")
        .then()
        .statusCode(201)
        .body("packs", equalTo(2), "reverses", equalTo(id));
    json(desk)
        .body(Map.of("reverses", id, "note", "wrong drawer"))
        .post("/api/stock-movements")
        .then()
        .statusCode(422)
        .contentType(containsString("application/problem+json"))
        .body("errors[0].message", containsString("undone before"));
    desk.script()
        .get("/api/stock-movements?code=" + type.code())
        .then()
        .body("items.reason", hasItems("delivery", "drawer-take", "reversal"), "total", equalTo(3));
  }

  @Test
  void the_same_key_takes_once() {
    Long lot = cupboard.lot(type, here, "K", 200, 5);
    Map<String, Object> body =
        Map.of("lotId", "" + lot, "packs", 1, "reason", "drawer-take", "drawerReason", "trial");
    String key = Crew.unique("key");
    String first =
        json(desk)
            .header("Idempotency-Key", key)
            .body(body)
            .post("/api/stock-movements")
            .then()
            .statusCode(201)
            .extract()
            .path("id");
    json(desk)
        .header("Idempotency-Key", key)
        .body(body)
        .post("/api/stock-movements")
        .then()
        .statusCode(201)
        .body("id", equalTo(first));
    assertThat(cupboard.packs(lot, here)).isEqualTo(4);
  }

  @Test
  void the_same_key_at_the_same_moment_takes_once_and_all_hear_so() throws Exception {
    Long lot = cupboard.lot(type, here, "T", 200, 9);
    Map<String, Object> body =
        Map.of("lotId", "" + lot, "packs", 1, "reason", "drawer-take", "drawerReason", "trial");
    String key = Crew.unique("key");
    CyclicBarrier together = new CyclicBarrier(8);
    Callable<String> call =
        () -> {
          together.await();
          return json(desk)
              .header("Idempotency-Key", key)
              .body(body)
              .post("/api/stock-movements")
              .then()
              .statusCode(201)
              .extract()
              .path("id");
        };
    ExecutorService clients = Executors.newFixedThreadPool(8);
    try {
      Set<String> ids = new HashSet<>();
      for (Future<String> answer : clients.invokeAll(Collections.nCopies(8, call))) {
        ids.add(answer.get());
      }
      assertThat(ids).hasSize(1);
    } finally {
      clients.shutdownNow();
    }
    assertThat(cupboard.packs(lot, here)).isEqualTo(8);
  }

  @Test
  void an_order_comes_in_parts_and_the_rest_is_cancelled() {
    String id =
        json(manager)
            .body(
                Map.of(
                    "location", place, "lines", List.of(Map.of("code", type.code(), "packs", 20))))
            .post("/api/orders")
            .then()
            .statusCode(201)
            .body("lines[0].onOrder", equalTo(20), "lines[0].price", equalTo("7.5000"))
            .extract()
            .path("id");
    Map<String, Object> part =
        Map.of(
            "lines",
            List.of(
                Map.of(
                    "code",
                    type.code(),
                    "lot",
                    "X/9",
                    "expiresOn",
                    cupboard.today(here).plusDays(300).toString(),
                    "packs",
                    8)));
    json(desk)
        .body(part)
        .post("/api/orders/" + id + "/deliveries")
        .then()
        .statusCode(201)
        .body(
            "order.lines[0].onOrder", equalTo(12),
            "order.lines[0].price", nullValue(),
            "movements[0].packs", equalTo(8));
    desk.script().get("/api/pads/" + type.code()).then().body("onOrder", equalTo(12));
    manager
        .script()
        .delete("/api/orders/" + id + "?reason=discontinued")
        .then()
        .statusCode(200)
        .body(
            "lines[0].onOrder",
            equalTo(0),
            "lines[0].cancelled",
            equalTo(12),
            "state",
            equalTo("delivered"));
    json(desk).body(part).post("/api/orders").then().statusCode(403);
  }

  @Test
  void lots_are_held_back_counted_and_moved() {
    Long lot = cupboard.lot(type, here, "L/1", 200, 6);
    json(manager)
        .body(
            Map.of(
                "from", place,
                "to", locations.byId(there).code(),
                "lines", List.of(Map.of("lotId", "" + lot, "packs", 2))))
        .post("/api/transfers")
        .then()
        .statusCode(201)
        .body("movements.packs", equalTo(List.of(-2, 2)));
    json(desk)
        .body(
            Map.of(
                "reason",
                "found one behind the board",
                "lines",
                List.of(Map.of("lotId", "" + lot, "packs", 5))))
        .post("/api/stock-counts")
        .then()
        .statusCode(201)
        .body(
            "differences[0].packs",
            equalTo(1),
            "differences[0].reason",
            equalTo("count-difference"));
    json(desk)
        .body(Map.of("reason", "gel came off"))
        .post("/api/pad-lots/" + lot + "/quarantine")
        .then()
        .statusCode(200)
        .body("state", equalTo("quarantined"), "heldAt", hasSize(1));
    desk.script()
        .get("/api/pad-lots?code=" + type.code())
        .then()
        .body("items.id", hasItem("" + lot));
    desk.script().get("/api/pads/" + type.code()).then().body("quarantined", equalTo(5));
    json(desk)
        .body(Map.of("reason", "x"))
        .post("/api/pad-lots/" + lot + "/release")
        .then()
        .statusCode(403);
    json(manager)
        .body(Map.of("reason", "maker tested it"))
        .post("/api/pad-lots/" + lot + "/release")
        .then()
        .statusCode(200)
        .body("state", equalTo("free"));
  }

  @Test
  void who_has_a_lot_is_told() {
    Long lot = cupboard.lot(type, here, "W", 200, 6);
    Long patient = cupboard.patient(here);
    stock.give(null, patient, here, List.of(new PackLine(lot, 2, null)), cupboard.now());
    desk.script()
        .get("/api/pad-lots/" + lot)
        .then()
        .body("holders[0].patientId", equalTo("" + patient), "holders[0].packs", equalTo(2));
  }

  @Test
  void what_cannot_be_read_is_400_and_what_the_rules_refuse_422_with_every_reason() {
    json(desk).body("{\"packs\": 1.5}").post("/api/stock-movements").then().statusCode(400);
    json(desk)
        .body(Map.of("packs", 1, "reason", "because"))
        .post("/api/stock-movements")
        .then()
        .statusCode(400);
    json(desk)
        .body(Map.of("packs", 1, "reason", "given"))
        .post("/api/stock-movements")
        .then()
        .statusCode(400)
        .body("errors[0].field", equalTo("reason"));
    json(desk)
        .body(Map.of("packs", 1, "reason", "drawer-take"))
        .post("/api/stock-movements")
        .then()
        .statusCode(422)
        .body("errors.field", hasItems("drawerReason", "code"));
    desk.script().get("/api/pad-lots/nonsense").then().statusCode(404);
    desk.script().get("/api/pads?location=" + locations.byId(there).code()).then().statusCode(404);
  }

  private static RequestSpecification json(Crew.Member who) {
    return who.script().contentType(ContentType.JSON);
  }
}
