package clinic.stimshelf.loans;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;

import clinic.stimshelf.location.Locations;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Where the location asks for a prescriber's order, a unit neither leaves nor stays without. */
@QuarkusTest
class OrderRequiredTest {
  private static final LocalDate LENT = LendingScene.TUESDAY;

  @Inject LendingScene lending;
  @Inject Locations locations;

  @Test
  void aUnitLeavesOnlyWithAnOrderThatRunsOnTheDay() {
    LendingScene.Scene scene = lending.open();
    ordersRequired(scene);
    String unit = lending.unit(scene);
    String program = lending.signed(scene);
    lending.prepared(scene, program, unit);
    Map<String, Object> checkOut = lending.order(scene, program, unit, 2);
    ordered(scene, program, LENT.minusDays(40), LENT.minusDays(1));

    LendingScene.post(scene.desk(), "/api/loans", checkOut)
        .statusCode(422)
        .body("errors.field", hasItem("order"));

    ordered(scene, program, LENT.minusDays(1), LENT);
    LendingScene.post(scene.desk(), "/api/loans", checkOut).statusCode(200);
  }

  @Test
  void anExtensionNeedsAnOrderThatStillRuns() {
    LendingScene.Scene scene = lending.open();
    ordersRequired(scene);
    String unit = lending.unit(scene);
    String program = lending.signed(scene);
    ordered(scene, program, LENT, LENT.plusDays(20));
    String loan = lending.lent(scene, program, unit);
    Map<String, Object> longer = Map.of("weeks", 2, "reason", "weak");
    lending.at(LENT.plusDays(21), "10:00");

    LendingScene.post(scene.pt(), "/api/loans/" + loan + "/extension", longer)
        .statusCode(422)
        .body("errors.field", hasItem("order"));
    LendingScene.get(scene.pt(), "/api/loans/" + loan).body("programVersion", equalTo(1));

    ordered(scene, program, LENT.plusDays(21), LENT.plusDays(60));
    LendingScene.post(scene.pt(), "/api/loans/" + loan + "/extension", longer)
        .statusCode(200)
        .body("programVersion", equalTo(2));
  }

  @Test
  void nobodyIsAskedWhereTheLocationDoesNotRequireOne() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String loan = lending.lent(scene, lending.signed(scene), unit);

    LendingScene.post(
            scene.pt(), "/api/loans/" + loan + "/extension", Map.of("weeks", 2, "reason", "weak"))
        .statusCode(200);
  }

  @ActivateRequestContext
  void ordersRequired(LendingScene.Scene scene) {
    locations.choose(scene.location(), Map.of("order-required", "yes"));
  }

  private void ordered(LendingScene.Scene scene, String program, LocalDate from, LocalDate to) {
    String patient =
        LendingScene.get(scene.pt(), "/api/programs/" + program).extract().path("patientId");
    LendingScene.post(
            scene.pt(),
            "/api/patients/" + patient + "/orders",
            Map.of(
                "prescriber",
                "Dr. Vale",
                "orderedOn",
                from.toString(),
                "endsOn",
                to.toString(),
                "ordered",
                "NMES at home"))
        .statusCode(201);
  }
}
