package clinic.stimshelf.whatif;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.pads.NewPadType;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadShape;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Trying other numbers, as a manager of a clinic that has none of its own. */
@QuarkusTest
class NumbersPagesTest {
  @Inject Crew crew;
  @Inject PadCatalog catalog;

  private Crew.Browser manager;

  @BeforeEach
  void signIn() {
    Long here = crew.location(Crew.unique("NUMBERS"));
    manager = Crew.signIn(crew.withPassword(Roles.MANAGER, Credential.NONE, here));
  }

  @Test
  void an_empty_clinic_is_told_how_to_begin() {
    manager.get().get("/numbers").then().statusCode(200).body(containsString("Try other numbers"));
    // Pads last alike at all locations, so these pages begin with a type that nobody has used.
    String pad = unused();
    for (String page :
        new String[] {
          "units", "reorder?pad=" + pad, "pad-life?pad=" + pad, "lateness", "lots?pad=" + pad
        }) {
      manager
          .get()
          .get("/numbers/" + page)
          .then()
          .statusCode(200)
          .body(containsString("The answer will stand here"), containsString("Type "));
    }
  }

  private String unused() {
    String code = Crew.unique("pad");
    QuarkusTransaction.requiringNew()
        .run(
            () ->
                catalog.add(
                    new NewPadType(
                        null,
                        code,
                        "Unused " + code,
                        PadShape.ROUND,
                        70,
                        70,
                        "snap",
                        4,
                        null,
                        20,
                        30,
                        new BigDecimal("7.5000"),
                        "Larch Supply",
                        7,
                        1,
                        0,
                        null,
                        null,
                        null)));
    return code;
  }

  /** Erlang B with one unit and a load of 1 is 1/2, by hand. */
  @Test
  void units_to_own_are_told_in_words_with_a_drawing_and_a_table() {
    manager
        .get()
        .get(
            "/numbers/units?requestsPerWeek=7&meanDaysAway=0.5&turnaroundDays=0.5&units=1&target=5")
        .then()
        .statusCode(200)
        .body(
            containsString("With 1 unit, 50 of 100 requests find none"),
            containsString("4 units are the fewest"),
            containsString("<polyline"),
            containsString("The same numbers as a table"));
  }

  @Test
  void what_cannot_be_read_comes_back_with_what_is_allowed() {
    manager
        .get()
        .get(
            "/numbers/units?requestsPerWeek=many&meanDaysAway=40&turnaroundDays=1&units=2.5&target=")
        .then()
        .statusCode(422)
        .body(
            containsString("value=\"many\""),
            containsString("value=\"2.5\""),
            containsString("Requests a week must be a number from 0 to 1000000000."),
            containsString("Units must be a whole number from 0 to 1000."),
            containsString("Turned away, of 100 is missing"),
            containsString("aria-invalid=\"true\""));
  }

  @Test
  void what_the_calculator_refuses_is_said_beside_its_field() {
    manager
        .get()
        .get(
            "/numbers/units?requestsPerWeek=100000&meanDaysAway=40&turnaroundDays=1&units=2&target=5")
        .then()
        .statusCode(422)
        .body(
            containsString("Requests a week is too high for these days"),
            containsString("value=\"100000\""));
  }

  /** Stock for 2 packs a day over 3 days: the 95 % point of Poisson 6 is 10. */
  @Test
  void the_order_level_keeps_its_promise() {
    manager
        .get()
        .get(
            "/numbers/reorder?packsPerDay=2&takings=&leadDays=3&reviewDays=0&level=95&promise=cycle")
        .then()
        .statusCode(200)
        .body(containsString("Order when 10 packs or fewer are left"));
    manager
        .get()
        .get(
            "/numbers/reorder?packsPerDay=2&takings=1x4,3x1&leadDays=3,5&reviewDays=1&level=95"
                + "&promise=fill&orderQuantity=10")
        .then()
        .statusCode(200)
        .body(containsString("Order 10 packs at a time"));
    manager
        .get()
        .get("/numbers/reorder?packsPerDay=2&takings=few&leadDays=soon&level=95&promise=fill")
        .then()
        .statusCode(422)
        .body(containsString("such as 1×40 2×13"), containsString("such as 4 5 5 9"));
    manager
        .get()
        .get("/numbers/reorder?packsPerDay=2&leadDays=3&level=95&promise=fill")
        .then()
        .statusCode(422)
        .body(containsString("Packs an order is missing"));
  }

  @Test
  void lines_are_read_and_what_is_wrong_with_one_is_said() {
    manager
        .form()
        .formParam("lines", "10 worn 4\n15 worn 3\n20 worn 2\n20 good 5")
        .formParam("reliability", "80")
        .post("/numbers/pad-life")
        .then()
        .statusCode(200)
        .body(containsString("sessions a set"), containsString("80 of 100 sets"));
    manager
        .form()
        .formParam("lines", "10 worn\n\n15 torn 3")
        .formParam("reliability", "80")
        .post("/numbers/pad-life")
        .then()
        .statusCode(422)
        .body(containsString("Pad sets, line 3"), containsString("15 torn 3"));
    manager
        .form()
        .formParam("lines", "0 back 60\n3 back 30\n10 out 10")
        .post("/numbers/lateness")
        .then()
        .statusCode(200)
        .body(containsString("60 of 100 are back by their due day; 10 are still out a week later"));
    manager
        .form()
        .formParam("lines", "A 1 3 400\nB 40 410\nC 4 390")
        .formParam("alpha", "5")
        .post("/numbers/lots")
        .then()
        .statusCode(200)
        .body(containsString("Lot B is worse than the rest"), containsString("A 1"));
    manager
        .form()
        .formParam("lines", "B 4 410\nB 4 390")
        .formParam("alpha", "5")
        .post("/numbers/lots")
        .then()
        .statusCode(422)
        .body(containsString("stands twice"));
  }

  @Test
  void what_is_typed_is_never_taken_for_markup() {
    manager
        .form()
        .formParam("lines", "<b>x</b> 3 400\ny 4 390")
        .formParam("alpha", "5")
        .post("/numbers/lots")
        .then()
        .statusCode(200)
        .body(not(containsString("<b>x</b>")));
  }

  @Test
  void the_front_desk_does_not_see_them() {
    Long here = crew.location(Crew.unique("NUMBERS"));
    Crew.signIn(crew.withPassword(Roles.FRONT_DESK, Credential.NONE, here))
        .get()
        .get("/numbers")
        .then()
        .statusCode(403);
  }
}
