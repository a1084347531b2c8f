package clinic.stimshelf.access;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.testing.Browser;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.web.Roles;
import com.microsoft.playwright.APIResponse;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.WaitForSelectorState;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import org.junit.jupiter.api.Test;

/** Signing in, the warning, and the change of person as a person meets them in a browser. */
@QuarkusTest
class DoorInBrowserTest {
  @Inject Crew crew;
  @Inject MutableClock clock;
  @Inject Staff staff;

  @TestHTTPResource("/")
  String base;

  private Member manager() {
    return crew.withPassword(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Door")));
  }

  private static void signIn(Page page, Member member) {
    page.getByLabel("Sign-in name").fill(member.username());
    page.getByLabel("Password").fill(Crew.PASSWORD);
    String before = page.url();
    page.keyboard().press("Enter");
    page.waitForURL(now -> !now.equals(before));
  }

  private static Locator button(Page page, String name) {
    return page.getByRole(
        AriaRole.BUTTON, new Page.GetByRoleOptions().setName(name).setExact(true));
  }

  @Test
  void thePagesOfTheDoorAreAccessibleAndWriteNoErrors() {
    Member member = manager();
    try (Browser browser = Browser.at(base)) {
      Page page = browser.page();
      for (String path : new String[] {"sign-in", "set-password", "first-account"}) {
        page.navigate(base + path);
        browser.axeFindsNothing();
        browser.fitsAt(320);
      }
      page.navigate(base + "account");
      signIn(page, member);
      assertThat(page.url()).endsWith("/account");
      for (String path :
          new String[] {
            "account",
            "settings/staff",
            "settings/staff/new",
            "settings/staff/" + member.id(),
            "change-person"
          }) {
        page.navigate(base + path);
        browser.axeFindsNothing();
        browser.fitsAt(320);
      }
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @Test
  void thePersonChangesAndTheNextOneFindsWhatWasTyped() {
    Member one = manager();
    Member next = manager();
    try (Browser browser = Browser.at(base)) {
      Page page = browser.page();
      page.navigate(base + "settings/staff/new");
      signIn(page, one);
      page.getByLabel("Name", new Page.GetByLabelOptions().setExact(true))
          .fill("Half “typed” name");
      page.getByLabel("Credential").selectOption("pta");
      page.getByText("This screen").click();
      page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Change person")).click();
      assertThat(page.content()).contains("Person " + one.username());
      signIn(page, next);
      page.waitForURL("**/settings/staff/new");
      page.getByText("What was typed before the person changed is back.").waitFor();
      assertThat(page.getByLabel("Name", new Page.GetByLabelOptions().setExact(true)).inputValue())
          .isEqualTo("Half “typed” name");
      assertThat(page.getByLabel("Credential").inputValue()).isEqualTo("pta");
      assertThat(page.content()).contains("Person " + next.username());
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @Test
  void theScreenWarnsAndStaysSignedInOnWish() {
    Member member = manager();
    clock.advance(Duration.ZERO);
    try (Browser browser = Browser.at(base)) {
      Page page = browser.page();
      page.navigate(base + "account");
      signIn(page, member);
      // The browser's clock is not ours to move, so the page is told that a minute is left.
      page.route(
          "**/account",
          route -> {
            APIResponse answer = route.fetch();
            route.fulfill(
                new Route.FulfillOptions()
                    .setResponse(answer)
                    .setBody(
                        answer.text().replaceAll("data-seconds=\"\\d+\"", "data-seconds=\"60\"")));
          });
      page.navigate(base + "account");
      clock.advance(Duration.ofMinutes(14));
      button(page, "Stay signed in").waitFor();
      assertThat(page.getByRole(AriaRole.ALERT).innerText()).contains("signs out");
      button(page, "Stay signed in").click();
      button(page, "Stay signed in")
          .waitFor(new Locator.WaitForOptions().setState(WaitForSelectorState.HIDDEN));
      clock.advance(Duration.ofMinutes(14));
      page.navigate(base + "settings/staff");
      assertThat(page.url()).endsWith("/settings/staff");
    }
  }

  /**
   * Without script, and after the time has run out: the form is kept, and sent after signing in.
   */
  @Test
  void withoutScriptAFormSentTooLateIsNotLost() {
    Member member = manager();
    String ref = Crew.unique("late-");
    clock.advance(Duration.ZERO);
    try (Browser browser = Browser.withoutScript(base)) {
      Page page = browser.page();
      page.navigate(base + "settings/staff/new");
      signIn(page, member);
      page.getByLabel("Name", new Page.GetByLabelOptions().setExact(true)).fill("Rosalind Quarry");
      page.getByLabel("Short name").fill(ref);
      page.getByLabel("Credential").selectOption("pt");
      page.getByLabel("Role").selectOption("therapist");
      clock.advance(Duration.ofMinutes(16));
      button(page, "Add staff member").click();
      assertThat(page.url()).contains("/sign-in");
      assertThat(page.content()).contains("What was typed is kept");
      signIn(page, member);
      assertThat(page.url()).endsWith("/kept");
      assertThat(page.content()).contains("Rosalind Quarry");
      button(page, "Send it now").click();
      assertThat(page.url()).matches(".*/settings/staff/\\d+");
      assertThat(staff.byRef(ref).name()).isEqualTo("Rosalind Quarry");
    }
  }
}
