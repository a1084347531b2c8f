package clinic.stimshelf.testing;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.deque.html.axecore.results.AxeResults;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Assumptions;

/**
 * A real Chromium with a fresh profile. Where there is none, a person's run skips the test visibly;
 * in CI its absence fails.
 */
public final class Browser implements AutoCloseable {
  /** Long enough for a machine on which other work goes on; only a failure waits for it. */
  private static final int PATIENCE_MS = 30_000;

  private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
  private static final boolean PICTURES = Boolean.getBoolean("stimshelf.screenshots");
  private static final Path SCREENS = Path.of("target", "screens");

  /** The pages that docs/ shows; the others can be looked at under target. */
  private static final Set<String> SHOWN =
      Set.of(
          "frontdesk-front-desk",
          "frontdesk-check-out-program",
          "frontdesk-check-in-one",
          "frontdesk-loans-one",
          "frontdesk-schedule",
          "frontdesk-schedule-week-day",
          "frontdesk-call-list",
          "frontdesk-scanner",
          "frontdesk-loans-one-pad-bags",
          "manager-pads-wear",
          "manager-pads-expiry",
          "manager-pads-orders",
          "manager-messages",
          "manager-recalls",
          "manager-recalls-one",
          "manager-incidents-one",
          "patient-page-en",
          "patient-page-es",
          "frontdesk-schedule-therapists",
          "frontdesk-schedule-upsets",
          "therapist-schedule-run",
          "therapist-calendar-links",
          "manager-review-pool",
          "frontdesk-units",
          "therapist-needs-me",
          "therapist-patients-one-screening",
          "therapist-programs-one-edit-template",
          "therapist-programs-one",
          "therapist-programs-one-home-instructions",
          "manager-pads",
          "manager-pads-one",
          "manager-pads-receive",
          "manager-review",
          "manager-review-replay-one",
          "manager-units-one",
          "manager-settings",
          "manager-settings-locations-one");

  private final boolean script;
  private final Playwright playwright;
  private final com.microsoft.playwright.Browser chromium;
  private final BrowserContext context;
  private final Page page;
  private final List<String> complaints = new ArrayList<>();

  private Browser(String base, boolean script) {
    this.script = script;
    playwright =
        Playwright.create(
            new Playwright.CreateOptions()
                .setEnv(java.util.Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
    chromium =
        playwright
            .chromium()
            .launch(
                new BrowserType.LaunchOptions()
                    .setExecutablePath(CHROMIUM)
                    .setArgs(
                        List.of(
                            "--no-sandbox",
                            "--disable-gpu",
                            "--disable-background-networking",
                            "--disable-component-update",
                            "--disable-sync",
                            "--no-first-run")));
    context =
        chromium.newContext(
            new com.microsoft.playwright.Browser.NewContextOptions()
                .setBaseURL(base)
                .setLocale("en-US")
                .setJavaScriptEnabled(script)
                .setViewportSize(1440, 900));
    context.setDefaultTimeout(PATIENCE_MS);
    PlaywrightAssertions.setDefaultAssertionTimeout(PATIENCE_MS);
    page = context.newPage();
    page.onConsoleMessage(
        message -> {
          if ("error".equals(message.type())) {
            complaints.add(message.text() + " at " + page.url());
          }
        });
    page.onPageError(error -> complaints.add(error + " at " + page.url()));
  }

  /** Opens a browser on the running program, for instance at http://127.0.0.1:8081. */
  public static Browser at(String base) {
    return open(base, true);
  }

  /** The same with scripts switched off. */
  public static Browser withoutScript(String base) {
    return open(base, false);
  }

  private static Browser open(String base, boolean script) {
    boolean there = Files.isExecutable(CHROMIUM);
    if (System.getenv("CI") != null) {
      assertThat(there).as("Chromium is needed in CI").isTrue();
    }
    Assumptions.assumeTrue(there, "SKIPPED: there is no Chromium at " + CHROMIUM);
    return new Browser(base, script);
  }

  public Page page() {
    return page;
  }

  /** Asks axe about the page as it stands, the rules of WCAG 2.2 AA and good practice included. */
  public void axeFindsNothing() {
    AxeResults results =
        new AxeBuilder(script ? page : withScript())
            .withTags(
                List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"))
            .analyze();
    assertThat(results.getViolations())
        .as("axe on " + page.url())
        .extracting(
            rule ->
                rule.getId()
                    + ": "
                    + rule.getNodes().stream().map(n -> n.getHtml()).limit(3).toList())
        .isEmpty();
  }

  /** The same address in a page with scripts: axe waits for timers, which stand still without. */
  private Page withScript() {
    BrowserContext seeing =
        chromium.newContext(
            new com.microsoft.playwright.Browser.NewContextOptions()
                .setStorageState(context.storageState())
                .setLocale("en-US")
                .setViewportSize(page.viewportSize().width, page.viewportSize().height));
    seeing.setDefaultTimeout(PATIENCE_MS);
    Page same = seeing.newPage();
    same.navigate(page.url());
    return same;
  }

  /** What the page wrote as errors, refused scripts and styles included. */
  public List<String> complaints() {
    return complaints;
  }

  /** Nothing sticks out sideways at this width. */
  public void fitsAt(int width) {
    page.setViewportSize(width, 800);
    int needed = ((Number) page.evaluate("document.documentElement.scrollWidth")).intValue();
    assertThat(needed).as(page.url() + " at " + width + " px").isLessThanOrEqualTo(width);
  }

  /** Signs in at the page, as a person does. */
  public void signIn(String username, String password) {
    page.navigate("/sign-in");
    page.getByLabel("Sign-in name").fill(username);
    page.getByLabel("Password").fill(password);
    page.getByRole(
            com.microsoft.playwright.options.AriaRole.BUTTON,
            new Page.GetByRoleOptions().setName("Sign in"))
        .click();
    page.waitForURL(url -> !url.contains("/sign-in"));
  }

  /**
   * Walks the page with the Tab key alone: everything that can be acted on is reached, the focus is
   * always seen, and nothing holds it.
   */
  public void tabReachesEverything() {
    page.evaluate("window.scrollTo(0, 0); document.activeElement && document.activeElement.blur()");
    int expected =
        ((Number)
                page.evaluate(
                    "() => { const seen = [...document.querySelectorAll("
                        + "'a[href],button,input:not([type=hidden]),select,textarea,summary,[tabindex=\"0\"]')]"
                        + ".filter(e => !e.disabled && e.tabIndex >= 0 && e.checkVisibility({visibilityProperty: true}));"
                        // A group of radio buttons is one stop.
                        + "const groups = new Set(); let n = 0;"
                        + "for (const e of seen) { if (e.type === 'radio') {"
                        + " const key = (e.form ? [...document.forms].indexOf(e.form) : 0) + e.name;"
                        + " if (groups.has(key)) continue; groups.add(key); } n++; }"
                        + " window.__reached = new Set(); return n; }"))
            .intValue();
    // Days and times are several stops in one field.
    int stops =
        expected
            + 5
            + 6
                * page.locator("input[type=date], input[type=time], input[type=datetime-local]")
                    .count();
    for (int i = 0; i < stops; i++) {
      page.keyboard().press("Tab");
      page.evaluate(
          "() => { const e = document.activeElement; if (!e || e === document.body) return;"
              + "const s = getComputedStyle(e);"
              + "if (s.outlineStyle === 'none' || parseFloat(s.outlineWidth) < 1)"
              + " throw new Error('no visible focus on ' + e.outerHTML.slice(0, 120));"
              + " window.__reached.add(e.type === 'radio' ?"
              + " (e.form ? [...document.forms].indexOf(e.form) : 0) + e.name : e); }");
    }
    int reached = ((Number) page.evaluate("window.__reached.size")).intValue();
    assertThat(reached)
        .as("stops of the Tab key on " + page.url())
        .isGreaterThanOrEqualTo(expected);
  }

  /** Takes pictures of the page, wide and on a phone, where they are asked for. */
  public void picture(String name) {
    if (!PICTURES) {
      return;
    }
    Path folder = SHOWN.contains(name) ? Path.of("docs", "screens") : SCREENS;
    try {
      Files.createDirectories(folder);
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
    for (int width : List.of(360, 1440)) {
      page.setViewportSize(width, 900);
      page.screenshot(
          new Page.ScreenshotOptions()
              .setPath(folder.resolve(name + "-" + width + ".png"))
              .setFullPage(true));
    }
  }

  @Override
  public void close() {
    context.close();
    chromium.close();
    playwright.close();
  }
}
