package clinic.stimshelf.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;

import clinic.stimshelf.testing.Crew;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Three units of one kind: away for 43 and 48 days, and for 94 so far. Of the product-limit curve
 * the mean is 43 + 5·2/3 + 46·1/3 days; three loans began in the 13 weeks since the first.
 */
@QuarkusTest
class PoolTest {
  private static final double MEAN = 43 + 5 * 2 / 3.0 + 46 / 3.0;
  private static final double LOAD = 3 / 13.0 / 7 * (MEAN + 1);

  @Inject PastClinic past;
  @Inject Pool pool;

  private PastClinic.Scene clinic() {
    PastClinic.Scene scene = past.open();
    past.program(scene, 5, 10);
    past.program(scene, 5, 10, "2026-02-23", "2026-02-28T10:00");
    past.program(scene, 5, 10, "2026-04-15", "");
    return scene;
  }

  @Test
  void scriptsGetTheCurveOfEachKind() {
    PastClinic.Scene scene = clinic();
    JsonPath json =
        scene
            .manager()
            .script()
            .get("/api/pool?location=" + scene.code())
            .then()
            .statusCode(200)
            .body("items.size()", equalTo(1))
            .body("items[0].kind", equalTo(scene.pad()))
            .body("items[0].unitsOwned", equalTo(3))
            .extract()
            .jsonPath();
    assertThat(json.getDouble("items[0].requestsPerWeek")).isCloseTo(3 / 13.0, within(1e-6));
    assertThat(json.getDouble("items[0].meanDaysAway")).isCloseTo(MEAN, within(1e-4));
    assertThat(json.getDouble("items[0].turnaroundDays")).isEqualTo(1);
    List<Integer> units = json.getList("items[0].curve.units");
    for (int n : units) {
      assertThat(json.getDouble("items[0].curve[" + n + "].turnedAway"))
          .isCloseTo(erlang(n), within(1e-6));
    }
  }

  /** Erlang's loss formula as it is printed: a^n/n! over the sum of a^k/k!, k = 0 … n. */
  private static double erlang(int units) {
    double sum = 0;
    double term = 1;
    for (int k = 0; k <= units; k++) {
      term *= k == 0 ? 1 : LOAD / k;
      sum += term;
    }
    return term / sum;
  }

  @Test
  @ActivateRequestContext
  void monthsChannelsAndOneMoreUnitAddUp() {
    PoolView view = pool.of(clinic().location(), 0.05);
    PoolView.OfKind kind = view.kinds().get(0);
    assertThat(kind.months()).hasSize(12);
    PoolView.Month february = kind.months().get(9);
    assertThat(february.words()).isEqualTo("February 2026");
    assertThat(february.away()).isCloseTo((22 + 27 + 28) / 28.0, within(1e-9));
    assertThat(kind.months().get(8).begun()).isEqualTo(3);
    assertThat(kind.months().get(10).away()).isEqualTo(1);
    assertThat(kind.servedByOneMore())
        .isCloseTo(3 / 13.0 * 365.25 / 7 * (erlang(3) - erlang(4)), within(1e-9));
    assertThat(view.channels()).containsExactly(new PoolView.Channel("call", 2, 1, 5));
    assertThat(kind.lacking()).isEqualTo(kind.pool().unitsForTarget() - 3).isPositive();
  }

  @Test
  void thePageThePaperAndTheFileSayTheSame() {
    PastClinic.Scene scene = clinic();
    Crew.Browser browser = Crew.signIn(scene.manager());
    browser
        .get()
        .get("/review/pool")
        .then()
        .statusCode(200)
        .body(containsString("Too few units for the goal"))
        .body(containsString("3 now"));
    browser.get().get("/review/pool?goal=60").then().body(containsString("Enough units"));
    browser.get().get("/review/pool?goal=many").then().statusCode(422);
    browser.get().get("/review/pool/print").then().statusCode(200);
    browser
        .get()
        .get("/review/pool/pool.csv")
        .then()
        .statusCode(200)
        .body(containsString(scene.pad() + ",month,2026-02,units_away,2.75"));
  }
}
