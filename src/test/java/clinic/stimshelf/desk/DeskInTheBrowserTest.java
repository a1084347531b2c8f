package clinic.stimshelf.desk;

import static clinic.stimshelf.desk.DeskScene.DUE;
import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import clinic.stimshelf.testing.Browser;
import clinic.stimshelf.testing.Crew;
import com.microsoft.playwright.Page;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.net.URL;
import java.util.regex.Pattern;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;

/** The desk as somebody with a scanner in one hand works it. */
@QuarkusTest
class DeskInTheBrowserTest {
  @Inject DeskScene scene;

  @TestHTTPResource("/")
  URL base;

  /** Types as a scanner does: into whatever has the focus, at once, Enter last. */
  private static void scan(Page page, String code) {
    page.evaluate(
        "code => { for (const key of [...code, 'Enter']) {"
            + " const at = document.activeElement ?? document.body;"
            + " const go = at.dispatchEvent(new KeyboardEvent('keydown',"
            + " {key, bubbles: true, cancelable: true}));"
            + " if (go && key !== 'Enter' && 'value' in at) at.value += key;"
            + " } }",
        code);
  }

  private static void signIn(Browser browser, Crew.Member member) {
    Page page = browser.page();
    page.navigate("/sign-in");
    page.getByLabel("Sign-in name").fill(member.username());
    page.getByLabel("Password").fill(Crew.PASSWORD);
    page.locator("main button").first().click();
    assertThat(page).hasURL(Pattern.compile(".*/(front-desk|needs-me)$"));
  }

  @Test
  void theScanFieldWaitsAndNoOtherFieldEverTakesAScan() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Lent lent = scene.lent(clinic);
    String ready = scene.ready(clinic).tag();
    scene.at(DUE.plusDays(1), "09:00");
    try (Browser browser = Browser.at(base.toString())) {
      signIn(browser, clinic.desk());
      Page page = browser.page();
      assertThat(page.locator("form.scan input[name=code]")).isFocused();
      browser.axeFindsNothing();
      browser.fitsAt(320);
      browser.fitsAt(360);
      browser.picture("front-desk-late");

      page.evaluate("document.activeElement.blur()");
      scan(page, ready);
      assertThat(page.locator("h1")).hasText("Unit " + ready);
      browser.axeFindsNothing();
      browser.fitsAt(320);

      page.navigate("/calls/" + lent.loan());
      browser.axeFindsNothing();
      browser.fitsAt(320);
      page.getByLabel("Note").fill("will call back");
      page.getByLabel("Note").focus();
      scan(page, ready);
      assertThat(page.getByLabel("Note")).hasValue("will call back");
      assertThat(page.locator("form.scan input[name=code]")).hasValue(ready);
      assertThat(page.locator("#said")).containsText("A code was scanned");
      assertThat(page).hasURL(Pattern.compile(".*/calls/" + lent.loan()));

      page.navigate("/front-desk");
      page.getByText("Call and log").first().focus();
      scan(page, lent.unit());
      assertThat(page).hasURL(Pattern.compile(".*/check-in/" + lent.loan()));
      Assertions.assertThat(browser.complaints()).isEmpty();
    }
  }

  @Test
  void aLostConnectionKeepsWhatIsTyped() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Lent lent = scene.lent(clinic);
    try (Browser browser = Browser.at(base.toString())) {
      signIn(browser, clinic.desk());
      Page page = browser.page();
      page.navigate("/calls/" + lent.loan());
      page.getByLabel("Note").fill("rang twice");
      page.getByLabel("no answer").check();
      page.context().setOffline(true);
      page.getByText("Log call").click();
      assertThat(page.locator("#said")).containsText("No connection");
      assertThat(page.getByLabel("Note")).hasValue("rang twice");
      page.context().setOffline(false);
      page.getByText("Log call").click();
      assertThat(page.locator(".done")).containsText("The call is logged");
    }
  }

  @Test
  void everythingWorksWithoutScript() {
    DeskScene.Clinic clinic = scene.clinic();
    DeskScene.Asked asked = scene.asked(clinic);
    scene.ready(clinic);
    try (Browser browser = Browser.withoutScript(base.toString())) {
      signIn(browser, clinic.desk());
      Page page = browser.page();
      page.locator("form.scan input[name=code]").fill(asked.chart());
      page.locator("form.scan button").click();
      assertThat(page).hasURL(Pattern.compile(".*/check-out\\?program=" + asked.program()));
    }
  }
}
