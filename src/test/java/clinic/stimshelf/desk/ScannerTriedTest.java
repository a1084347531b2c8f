package clinic.stimshelf.desk;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.ValidatableResponse;
import jakarta.inject.Inject;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A scanner is tried before it is trusted: what it lost is seen, and what to set is said. */
@QuarkusTest
class ScannerTriedTest {
  /** GS1's example product, a lot of variable length, then a serial number. */
  private static final String WHOLE = "]d201095060001178431728022910LOT-7\u001D21S-12";

  @Inject Crew crew;
  private Crew.Browser desk;

  @BeforeEach
  void signIn() {
    desk =
        Crew.signIn(
            crew.withPassword(
                Roles.FRONT_DESK, Credential.NONE, crew.location(Crew.unique("Scan"))));
  }

  private ValidatableResponse scanned(String code) {
    return desk.form().formParam("code", code).post("/scanner").then().statusCode(200);
  }

  @Test
  void labelsToTryStandOnThePage() {
    desk.get()
        .get("/scanner")
        .then()
        .statusCode(200)
        .body(containsString("<svg"), containsString("(10)LOT-7"), containsString("(21)S-12"));
  }

  @Test
  void aWholeReadingShowsEverySignAndTheParts() {
    scanned(WHOLE)
        .body(
            containsString("read whole"),
            containsString("<kbd class=\"unseen\">separator</kbd>"),
            containsString("<dd>]d2</dd>"),
            containsString("<dd>LOT-7</dd>"),
            containsString("<dd>S-12</dd>"));
  }

  @Test
  void aLostSeparatorIsFoundOutAndTheSettingIsNamed() {
    scanned(WHOLE.replace("\u001D", ""))
        .body(containsString("ran together"), containsString("group separator"))
        .body(not(containsString("read whole")));
    scanned(WHOLE.replace("\u001D", "~")).body(containsString("read whole"));
  }

  @Test
  void aTagOfOursIsKnownAndOneOnTheWrongKeyboardIsNot() {
    scanned("U-0007066").body(containsString("One of our tags: U-0007066"));
    scanned("U-0007067").body(containsString("layout of this computer"));
    scanned("").body(containsString("Nothing came"));
    scanned("<script>x</script>").body(not(containsString("<script>x")));
  }
}
