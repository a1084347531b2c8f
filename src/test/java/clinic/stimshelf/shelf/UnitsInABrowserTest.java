package clinic.stimshelf.shelf;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.shelf.Entered.EnteredFault;
import clinic.stimshelf.shelf.Entered.EnteredUnit;
import clinic.stimshelf.shelf.Entered.EnteredUse;
import clinic.stimshelf.shelf.Entered.EnteredWipe;
import clinic.stimshelf.testing.Browser;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.web.Roles;
import com.microsoft.playwright.Page;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.net.URL;
import java.time.Duration;
import java.time.LocalDate;
import java.time.Month;
import java.util.List;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The shelf's pages in a real browser: nothing for axe to find, no sideways scroll, keys alone. */
@QuarkusTest
class UnitsInABrowserTest {
  @Inject Crew crew;
  @Inject ShelfScene scene;
  @Inject Shelf shelf;
  @Inject ShelfKeeping keeping;
  @Inject ShelfEntries entries;

  @TestHTTPResource("/")
  URL base;

  private Long location;
  private String start;

  @BeforeEach
  void aShelfInFullUse() {
    location = scene.location();
    String kind = scene.kind(2);
    start = ShelfScene.unique("U");
    entries.enterSpot(location, "Cupboard A, board 1", 1);
    entries.enterSpot(location, "Cupboard A, board 2", 2);
    enter(1, kind, "Cupboard A, board 1", null, null);
    Long lent = enter(2, kind, "Cupboard A, board 1", null, null);
    Long late = enter(3, kind, "Cupboard A, board 1", null, null);
    enter(4, kind, "Cupboard A, board 1", "to-wipe", null);
    enter(5, kind, "Cupboard A, board 2", "to-inspect", null);
    enter(6, kind, "Cupboard A, board 2", "out-of-service", "One channel gives nothing");
    Long busy = enter(7, kind, "Cupboard A, board 2", null, null);
    enter(8, kind, null, "retired", null);
    for (int month = 11; month > 1; month -= 2) {
      use(lent, UseKind.LOAN, month * 10L, month * 30, 28, true);
      use(lent, UseKind.TREATMENT, month * 10L, month * 30 - 29, 0, true);
    }
    use(lent, UseKind.LOAN, 1L, 12, 28, false);
    use(late, UseKind.LOAN, 2L, 30, 28, false);
    use(busy, UseKind.TREATMENT, 3L, 0, 0, false);
    entries.enterWipe(
        new EnteredWipe(start + "w", tag(2), "blue-tub", scene.in(days(-62)), "T. Moe", null));
    entries.enterFault(
        new EnteredFault(start + "f", tag(2), "fault", scene.in(days(-150)), "dim display", null));
  }

  @Test
  void everyPageOfTheManagerIsForEveryone() {
    SoftAssertions softly = new SoftAssertions();
    try (Browser browser = signIn(Roles.MANAGER, Credential.NONE)) {
      for (String path :
          List.of(
              "/units",
              "/units/" + tag(1),
              "/units/" + tag(2),
              "/units/" + tag(3),
              "/units/" + tag(4),
              "/units/" + tag(6),
              "/units/" + tag(2) + "/kit",
              "/units/" + tag(2) + "/labels",
              "/units/" + tag(5) + "/inspection",
              "/units/" + tag(1) + "/labels/sheet?stock=letter-30",
              "/new-unit",
              "/unit-kinds",
              "/unit-kinds/form",
              "/storage-spots",
              "/wipe")) {
        browser.page().navigate(path);
        assertThat(browser.page().url()).isEqualTo(root() + path);
        softly.assertThatCode(browser::axeFindsNothing).doesNotThrowAnyException();
        softly.assertThatCode(() -> browser.fitsAt(360)).doesNotThrowAnyException();
        softly.assertThatCode(() -> browser.fitsAt(320)).doesNotThrowAnyException();
        browser.page().setViewportSize(1440, 900);
      }
      browser.page().navigate("/units");
      browser.picture("units");
      browser.page().navigate("/units/" + tag(2));
      browser.picture("unit");
      browser.page().navigate("/units/" + tag(5) + "/inspection");
      browser.picture("inspection");
      browser.page().navigate("/wipe");
      browser.picture("wipe");
      assertThat(browser.complaints()).isEmpty();
      softly.assertAll();
    }
  }

  @Test
  void aWipeTakesAScanAndTwoKeys() {
    try (Browser browser = signIn(Roles.FRONT_DESK, Credential.NONE)) {
      Page page = browser.page();
      page.navigate("/wipe");
      page.keyboard().type(tag(4));
      page.keyboard().press("Enter");
      page.waitForURL("**/wipe?done=**");
      assertThat(page.locator("main [role=status]").innerText())
          .contains("is wiped; it counts from");
      assertThat(shelf.byTag(tag(4)).readyAt()).isNotNull();
      browser.axeFindsNothing();
    }
  }

  @Test
  void anInspectionIsDoneByKeysAlone() {
    try (Browser browser = signIn(Roles.THERAPIST, Credential.PT)) {
      Page page = browser.page();
      page.navigate("/units/" + tag(5) + "/inspection");
      page.locator("input[name='answers.case-whole']").first().focus();
      for (int point = 0; point < scene.answers(true).size(); point++) {
        page.waitForTimeout(60); // slower than a scanner
        page.keyboard().press("Space");
        page.keyboard().press("Tab");
      }
      page.locator("button.main").focus();
      page.keyboard().press("Enter");
      page.waitForURL("**?done=inspected");
      assertThat(shelf.byTag(tag(5)).state()).isEqualTo(UnitState.READY);
    }
  }

  @Test
  void everythingWorksWithoutScript() {
    Member member = crew.withPassword(Roles.FRONT_DESK, Credential.NONE, location);
    try (Browser browser = Browser.withoutScript(root())) {
      signIn(browser, member);
      Page page = browser.page();
      page.navigate("/units/" + tag(1));
      page.getByText("Report trouble").click();
      page.fill("#trouble-words", "beeps at once");
      page.getByRole(
              com.microsoft.playwright.options.AriaRole.BUTTON,
              new Page.GetByRoleOptions().setName("Enter trouble"))
          .click();
      page.waitForURL("**?done=trouble");
      assertThat(shelf.byTag(tag(1)).state()).isEqualTo(UnitState.OUT_OF_SERVICE);
    }
  }

  private Browser signIn(String role, Credential credential) {
    Member member = crew.withPassword(role, credential, location);
    Browser browser = Browser.at(root());
    signIn(browser, member);
    return browser;
  }

  private static void signIn(Browser browser, Member member) {
    Page page = browser.page();
    page.navigate("/sign-in?next=/account");
    page.fill("[name=username]", member.username());
    page.fill("[name=password]", Crew.PASSWORD);
    page.keyboard().press("Enter");
    page.waitForURL(url -> url.endsWith("/account") && !url.contains("sign-in"));
  }

  private String root() {
    String text = base.toString();
    return text.endsWith("/") ? text.substring(0, text.length() - 1) : text;
  }

  private String tag(int number) {
    return start + "." + number;
  }

  private Long enter(int number, String kind, String spot, String state, String why) {
    return entries.enterUnit(
        new EnteredUnit(
            tag(number),
            tag(number),
            "S" + tag(number),
            kind,
            location,
            spot,
            "both",
            state,
            why,
            LocalDate.of(2031, Month.MAY, 4),
            scene.in(days(-1)),
            null,
            null,
            null,
            null));
  }

  private void use(Long unit, UseKind kind, Long subject, int ago, int time, boolean over) {
    entries.enterUse(
        new EnteredUse(
            unit,
            kind,
            subject,
            scene.in(days(-ago)),
            scene.in(days(time - ago)).plus(Duration.ofHours(1)),
            over ? scene.in(days(time - ago)).plus(Duration.ofMinutes(30)) : null,
            false,
            null));
  }

  private static Duration days(int days) {
    return Duration.ofDays(days);
  }
}
