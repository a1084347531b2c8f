package clinic.stimshelf.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.contains;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.empty;
import static org.hamcrest.Matchers.endsWith;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.notNullValue;
import static org.hamcrest.Matchers.nullValue;

import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What each kind of scan is told to be, and where the page leads. */
@QuarkusTest
class ScanDispatchTest {
  @Inject DeskScene scene;

  private static Response scanned(Browser browser, String code) {
    return browser.form().formParam("code", code).post("/scan");
  }

  @Test
  void aReadyUnitCanGoToWhoeverWaitsForOneOrBeWiped() {
    DeskScene.Clinic clinic = scene.clinic();
    UnitView unit = scene.ready(clinic);
    DeskScene.Asked asked = scene.asked(clinic);
    clinic
        .scan("]C0" + unit.tag().toLowerCase() + "\r\n")
        .body("kind", equalTo("unit"))
        .body("udi", nullValue())
        .body("matches.id", contains(unit.tag()))
        .body("matches[0].state", equalTo("ready"))
        .body("actions.action", hasItems("check-out", "wipe", "unit"))
        .body(
            "actions[0].page",
            equalTo("/check-out?program=" + asked.program() + "&unit=" + unit.tag()))
        .body("problems", empty());
    scanned(Crew.signIn(clinic.desk()), unit.tag())
        .then()
        .statusCode(200)
        .body(containsString("Check out unit"))
        .body(containsString("Wipe unit"));
  }

  @Test
  void theTagOfAPartFindsItsUnit() {
    DeskScene.Clinic clinic = scene.clinic();
    UnitView unit = scene.ready(clinic);
    String part = unit.contents().get(0).tag();
    clinic
        .scan(part)
        .body("kind", equalTo("unit"))
        .body("matches.id", contains(unit.tag()))
        .body("matches[0].words", containsString("lead set"));
  }

  @Test
  void theSerialNumberOnAUnitsLabelFindsIt() {
    DeskScene.Clinic clinic = scene.clinic();
    UnitView unit = scene.ready(clinic);
    // GTIN of the GS1 General Specifications' examples, element strings (01) and (21).
    clinic
        .scan("]d2010950600011784321" + unit.serial())
        .body("kind", equalTo("unit"))
        .body("udi.issuer", equalTo("GS1"))
        .body("udi.serial", equalTo(unit.serial()))
        .body("matches.id", contains(unit.tag()));
  }

  @Test
  void aUnitOnLoanOpensItsCheckIn() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Lent lent = scene.lent(clinic);
    clinic
        .scan(lent.unit())
        .body("kind", equalTo("unit"))
        .body("actions[0].action", equalTo("check-in"))
        .body("actions.action", hasItem("call"));
    scanned(Crew.signIn(clinic.desk()), lent.unit())
        .then()
        .statusCode(303)
        .header("Location", endsWith("/check-in/" + lent.loan()));
  }

  @Test
  void aUnitToWipeOpensItsWipe() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Lent lent = scene.lent(clinic);
    clinic.post(clinic.desk(), "/api/loans/" + lent.loan() + "/return", Map.of()).statusCode(200);
    scanned(Crew.signIn(clinic.desk()), lent.unit())
        .then()
        .statusCode(303)
        .header("Location", endsWith("/wipe?unit=" + lent.unit()));
  }

  @Test
  void aChartNumberWithOneOpenRequestOpensTheCheckOut() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Asked asked = scene.asked(clinic);
    clinic
        .scan(asked.chart().toLowerCase())
        .body("kind", equalTo("patient"))
        .body("matches[0].id", equalTo(String.valueOf(asked.patient())))
        .body("actions[0].action", equalTo("check-out"));
    scanned(Crew.signIn(clinic.desk()), asked.chart())
        .then()
        .statusCode(303)
        .header("Location", endsWith("/check-out?program=" + asked.program()));
    scanned(Crew.signIn(clinic.pt()), asked.chart())
        .then()
        .statusCode(200)
        .body(containsString("/patients/" + asked.patient()));
  }

  @Test
  void aChartNumberWhoseUnitIsOutSaysWhatCanBeDone() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Lent lent = scene.lent(clinic);
    clinic
        .scan(lent.asked().chart())
        .body("kind", equalTo("patient"))
        .body("actions.action", hasItems("check-in", "loan", "patient"));
    scanned(Crew.signIn(clinic.desk()), lent.asked().chart())
        .then()
        .statusCode(200)
        .body(containsString("/check-in/" + lent.loan()));
  }

  @Test
  void aNameIsAnsweredInThePageAndNeverInAnAddress() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Asked asked = scene.asked(clinic);
    Response page = scanned(Crew.signIn(clinic.desk()), "lindq");
    page.then()
        .statusCode(200)
        .body(containsString("<span class=\"name\">Ada Lindqvist</span>"))
        .body(containsString("/patients/" + asked.patient()));
    assertThat(page.getHeader("Location")).isNull();
    assertThat(page.asString()).doesNotContainPattern("(href|action)=\"[^\"]*indqvist");
    clinic
        .scan("5/17/1980")
        .body("kind", equalTo("patient"))
        .body("matches.id", hasItem(String.valueOf(asked.patient())));
  }

  @Test
  void aPackTellsItsLotAndWhetherItMayLeave() {
    DeskScene.Clinic clinic = scene.clinic();
    clinic
        .scan("(01)09506000117843(17)270304(10)" + clinic.lotNumber())
        .body("kind", equalTo("udi"))
        .body("udi.deviceIdentifier", equalTo("09506000117843"))
        .body("udi.lot", equalTo(clinic.lotNumber()))
        .body("udi.expiresOn", equalTo("2027-03-04"))
        .body("udi.madeOn", nullValue())
        .body("matches[0].kind", equalTo("pad-lot"))
        .body("matches[0].words", containsString("200 packs at " + clinic.code()))
        .body("problems", empty());
    clinic
        .scan("(01)09506000117843(17)260301(10)" + clinic.lotNumber())
        .body("problems[0]", containsString("Ask a manager"));
    clinic
        .scan("(01)09506000117843(17)270304(10)NEVERCAME")
        .body("kind", equalTo("udi"))
        .body("matches", empty())
        .body("problems[0]", containsString("NEVERCAME"));
    clinic.scan(clinic.lotNumber()).body("kind", equalTo("udi")).body("udi", nullValue());
  }

  @Test
  void aMisreadTagFindsNoOtherUnit() {
    DeskScene.Clinic clinic = scene.clinic();
    String tag = scene.ready(clinic).tag();
    char last = tag.charAt(tag.length() - 1);
    String wrong = tag.substring(0, tag.length() - 1) + (last == '7' ? '8' : '7');
    clinic
        .scan(wrong)
        .body("kind", equalTo("unknown"))
        .body("matches", empty())
        .body("problems[0]", containsString("not a tag of ours"));
  }

  @Test
  void whatIsUnknownIsReadBackWithWhatToTry() {
    DeskScene.Clinic clinic = scene.clinic();
    clinic
        .scan("zzq-<script>")
        .body("kind", equalTo("unknown"))
        .body("actions", empty())
        .body("problems", notNullValue());
    scanned(Crew.signIn(clinic.desk()), "zzq <script>alert(1)</script>")
        .then()
        .statusCode(200)
        .body(containsString("zzq &lt;script&gt;"))
        .body(not(containsString("<script>alert")))
        .body(containsString("chart number"));
    for (String odd : new String[] {"", " ", "\u001d", "]", "]X", "%", "x".repeat(500)}) {
      clinic.scan(odd).body("problems", not(empty()));
    }
  }

  @Test
  void anotherLocationsThingsAreNotShown() {
    DeskScene.Clinic one = scene.clinic();
    DeskScene.Clinic other = scene.clinic();
    UnitView unit = scene.ready(other);
    DeskScene.Asked asked = scene.asked(other);
    one.scan(unit.tag()).body("kind", equalTo("unknown"));
    one.scan(asked.chart()).body("kind", equalTo("unknown"));
  }
}
