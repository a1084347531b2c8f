package clinic.stimshelf.program;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.people.Side;
import clinic.stimshelf.testing.Browser;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Folk;
import clinic.stimshelf.web.Roles;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;

/** A therapist writes a program out of a complete template, counted in what has to be touched. */
@QuarkusTest
class WritingAProgramInTheBrowserTest {
  private static final int MOST_INPUTS = 10;

  @Inject Desk desk;
  @Inject Crew crew;
  @Inject Folk folk;

  @TestHTTPResource("/")
  String base;

  private int inputs;
  private boolean script = true;

  @Test
  void aCompleteTemplateTakesAtMostTenInputsAndEveryPageServesEverybody() {
    Scene scene = scene();
    try (Browser browser = Browser.at(base())) {
      browser.signIn(scene.pt().username(), Crew.PASSWORD);
      Page page = browser.page();
      page.navigate("/programs/new?patient=" + scene.patient());
      look(browser, "program-templates");
      click(page.getByText("After knee replacement, from the first days"));
      fill(page, scene);
      assertThat(page.locator("#outlook")).containsText("84 sessions");
      click(page.getByLabel("dropped off at the counter"));
      type(page, "Setting: the unit", "Mode P3: 50 Hz, 250 µs, 15/45");
      assertThat(page.locator("#outlook")).containsText("packs now");
      look(browser, "program-editor");
      click(page.getByLabel("I reviewed these"));
      click(button(page, "Sign program"));
      assertThat(page.locator("h1")).containsText("Program for");
      assertThat(page.locator(".lead")).containsText("Version 1 signed by");
      assertThat(inputs).as("what had to be touched").isLessThanOrEqualTo(MOST_INPUTS);
      look(browser, "program-page");
      page.navigate("/needs-me");
      look(browser, "needs-me");
      click(page.getByText("Record it"));
      click(page.getByText("Print home instructions"));
      look(browser, "home-instructions");
      click(page.getByText("Español"));
      look(browser, "home-instructions-es");
      page.goBack();
      page.goBack();
      click(page.getByText("Print program sheet"));
      look(browser, "program-sheet");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @Test
  void withoutScriptAButtonShowsWhatFollowsAndSigns() {
    Scene scene = scene();
    script = false;
    try (Browser browser = Browser.withoutScript(base())) {
      browser.signIn(scene.pt().username(), Crew.PASSWORD);
      Page page = browser.page();
      page.navigate("/programs/new?patient=" + scene.patient());
      click(page.getByText("After knee replacement, from the first days"));
      fill(page, scene);
      click(button(page, "Show what follows"));
      assertThat(page.locator("#outlook")).containsText("84 sessions");
      click(page.getByLabel("dropped off at the counter"));
      type(page, "Setting: the unit", "Mode P3");
      click(page.getByLabel("I reviewed these"));
      click(button(page, "Sign program"));
      assertThat(page.locator(".lead")).containsText("Version 1 signed by");
    }
  }

  private record Scene(Crew.Member pt, Long patient, String pad) {}

  private Scene scene() {
    Long location = crew.location(Crew.unique("browse"));
    Crew.Member pt = crew.withPassword(Roles.THERAPIST, Credential.PT, location);
    Long patient = folk.patient(location);
    folk.screened(patient, "quadriceps", Side.LEFT, pt);
    return new Scene(pt, patient, desk.padType(4, 20, 30));
  }

  private void fill(Page page, Scene scene) {
    choose(page, "Side", "left");
    type(page, "Channels", "2");
    choose(page, "Pads", scene.pad());
    type(page, "How many lie at once", "4");
    type(page, "Start day", LocalDate.now(Desk.ZONE).toString());
  }

  private static void look(Browser browser, String name) {
    browser.axeFindsNothing();
    browser.fitsAt(360);
    browser.fitsAt(320);
    browser.picture(name);
  }

  private static com.microsoft.playwright.Locator button(Page page, String name) {
    return page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName(name));
  }

  private void click(com.microsoft.playwright.Locator what) {
    if (script) {
      what.first().click();
    } else {
      // Without script an element never counts as standing still, which a click waits for.
      boolean ticks = "INPUT".equals(what.first().evaluate("e => e.tagName"));
      what.first().press(ticks ? "Space" : "Enter");
    }
    inputs++;
  }

  private void type(Page page, String label, String text) {
    page.getByLabel(label).first().fill(text);
    page.getByLabel(label).first().dispatchEvent("change");
    inputs++;
  }

  private void choose(Page page, String label, String value) {
    page.getByLabel(label, new Page.GetByLabelOptions().setExact(true)).first().selectOption(value);
    inputs++;
  }

  private String base() {
    return base.endsWith("/") ? base.substring(0, base.length() - 1) : base;
  }
}
