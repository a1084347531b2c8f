package clinic.stimshelf.loans;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.notNullValue;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What is seen at the counter when a unit comes home decides how it is cleaned. */
@QuarkusTest
class SoiledAtCheckInTest {
  @Inject LendingScene lending;

  @Test
  void aCheckInThatNamesPestsHoldsTheKitAndAWrongProductIsRefused() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String loan = lending.lent(scene, lending.signed(scene), unit);

    LendingScene.post(
            scene.desk(),
            "/api/loans/" + loan + "/return",
            Map.of("soiling", List.of("pests", "body-fluid")))
        .statusCode(200)
        .body("state", equalTo("returned"));
    LendingScene.get(scene.desk(), "/api/units/" + unit)
        .body("state", equalTo("to-wipe"))
        .body("soiling", equalTo(List.of("body-fluid", "pests")))
        .body("heldUntil", notNullValue());
    LendingScene.post(scene.desk(), "/api/units/" + unit + "/wiped", Map.of("product", "gray-tub"))
        .statusCode(422)
        .body("errors.field", equalTo(List.of("product")));
    LendingScene.post(scene.desk(), "/api/units/" + unit + "/wiped", Map.of()).statusCode(200);
    lending.later(60);
    LendingScene.get(scene.desk(), "/api/units/" + unit).body("state", equalTo("to-wipe"));
    LendingScene.post(scene.desk(), "/api/units/" + unit + "/not-soiled", Map.of("reason", "lint"))
        .statusCode(403);
    lending.later(14 * 24 * 60);
    LendingScene.get(scene.desk(), "/api/units/" + unit)
        .body("state", equalTo("to-inspect"))
        .body("soiling", equalTo(List.of()));
  }
}
