package clinic.stimshelf.link;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.testing.Browser;
import com.microsoft.playwright.Page;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.net.URI;
import org.junit.jupiter.api.Test;

/** The patient's page on a phone without script, in both languages, by a real browser's posts. */
@QuarkusTest
class PatientPageInABrowserTest {
  @Inject LendingScene lending;
  @Inject PatientPageTest.LinkScene scenes;

  @TestHTTPResource("/")
  URI base;

  @Test
  void is_ticked_and_reports_on_a_small_screen_in_english_and_spanish() {
    LendingScene.Scene scene = lending.open();
    String program = lending.signed(scene);
    Long loan = Long.valueOf(lending.lent(scene, program, lending.unit(scene)));
    String path = scenes.link(loan);
    lending.at(LendingScene.TUESDAY.plusDays(1), "10:00");
    String at = base.toString().replaceAll("/$", "");
    try (Browser browser = Browser.withoutScript(at)) {
      Page page = browser.page();
      page.setViewportSize(320, 640);
      for (String[] words :
          new String[][] {
            {
              "en", "Done", "Take back", "My skin or my leg is not right", "Red for", "Stop for now"
            },
            {
              "es",
              "Hecha",
              "Deshacer",
              "Mi piel o mi pierna no está bien",
              "Roja",
              "Pare por ahora"
            }
          }) {
        scenes.language(loan, words[0]);
        page.navigate(at + path);
        browser.picture("patient-page-" + words[0]);
        browser.fitsAt(320);
        page.locator("button[value=done]").first().click();
        assertThat(page.getByText(words[2]).first()).isVisible();
        page.getByText(words[3]).click();
        page.getByText(words[4]).click();
        assertThat(page.getByRole(com.microsoft.playwright.options.AriaRole.HEADING).first())
            .hasText(words[5]);
        browser.fitsAt(320);
      }
      browser.axeFindsNothing();
    }
  }
}
