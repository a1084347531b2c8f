package clinic.stimshelf.loans;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** A swollen pack is out of use (common practice, no source); the desk cannot clear it. */
@QuarkusTest
class SwollenPackTest {
  @Inject LendingScene lending;

  @Test
  void aSwollenPackAtCheckInStaysOutOfServiceUntilJudgedWithAReason() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String loan = lending.lent(scene, lending.signed(scene), unit);
    LendingScene.post(scene.desk(), "/api/loans/" + loan + "/return", Map.of("trouble", "swollen"))
        .statusCode(200)
        .body("state", equalTo("returned"));
    String at = "/api/units/" + unit;
    LendingScene.get(scene.desk(), at)
        .body("state", equalTo("out-of-service"))
        .body("packSwollen", equalTo(true));

    for (String step : List.of("/charging", "/charged")) {
      LendingScene.post(scene.desk(), at + step, Map.of())
          .statusCode(422)
          .body("errors.field", hasItem("packSwollen"));
    }
    LendingScene.post(scene.desk(), at + "/battery-judged", Map.of("reason", "looks fine"))
        .statusCode(403);
    LendingScene.post(scene.pt(), at + "/to-inspection", Map.of())
        .statusCode(422)
        .body("errors.field", hasItem("packSwollen"));
    LendingScene.post(scene.pt(), at + "/battery-judged", Map.of("reason", " "))
        .statusCode(422)
        .body("errors.field", equalTo(List.of("reason")));
    LendingScene.post(scene.pt(), at + "/battery-judged", Map.of("reason", "new pack put in"))
        .statusCode(200)
        .body("packSwollen", equalTo(false))
        .body("state", equalTo("to-inspect"))
        .body("charged", equalTo(false));
    LendingScene.post(scene.manager(), at + "/battery-judged", Map.of("reason", "again"))
        .statusCode(422);
    LendingScene.get(scene.manager(), "/api/trail?subject=unit:" + unit)
        .body("items.action", hasItem("battery judged: new pack put in"));
  }

  @Test
  void toldWhileTheLoanRunsItIsNotClearedByTheCheckIn() {
    LendingScene.Scene scene = lending.open();
    String unit = lending.unit(scene);
    String loan = lending.lent(scene, lending.signed(scene), unit);
    String at = "/api/units/" + unit;
    LendingScene.post(
            scene.desk(),
            at + "/out-of-service",
            Map.of("cause", "swollen", "reason", "told by phone"))
        .statusCode(200);
    LendingScene.post(scene.pt(), at + "/battery-judged", Map.of("reason", "by phone"))
        .statusCode(422)
        .body("errors.field", equalTo(List.of("state")));
    LendingScene.post(scene.desk(), "/api/loans/" + loan + "/return", Map.of()).statusCode(200);
    LendingScene.get(scene.desk(), at).body("state", equalTo("out-of-service"));
  }
}
