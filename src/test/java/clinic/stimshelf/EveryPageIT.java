package clinic.stimshelf;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.testing.Browser;
import clinic.stimshelf.testing.Program;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Response;
import java.net.URI;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Predicate;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Follows every link of the packaged program with its demo, as each role, and looks at one page of
 * each kind: the accessibility rules, a phone's width, the keyboard alone, and what the browser
 * complains of. A page that shows a role nothing but what was looked at for another is not looked
 * at again.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class EveryPageIT {
  /** What links lead to but is no page to look at. */
  private static final Set<String> NO_PAGES = Set.of("/sign-out", "/q");

  private static final ObjectMapper JSON = new ObjectMapper();

  private static final Map<String, String> START =
      Map.of("frontdesk", "/", "therapist", "/needs-me", "manager", "/pads");

  /** What stands on a page: each element with its parent, its class and the kind of its input. */
  private static final String PARTS =
      "[...new Set([...document.querySelectorAll('main *')].map(e => e.parentElement.tagName + '>'"
          + " + e.tagName + '.' + e.getAttribute('class') + ':' + (e.getAttribute('type') || '')))]";

  private final Map<String, Set<String>> lookedAt = new ConcurrentHashMap<>();

  private Program program;

  @BeforeAll
  void start() throws Exception {
    Path folder = Path.of(System.getProperty("stimshelf.build", "target"), "every-page");
    program = Program.startEmpty(folder);
    somethingIsRecalledAndSomebodyWasHurt();
  }

  /** So that their pages are among those looked at. */
  private void somethingIsRecalledAndSomebodyWasHurt() throws Exception {
    JsonNode given =
        first("/api/stock-movements?size=200", one -> one.get("reason").asText().equals("given"));
    JsonNode loan = first("/api/loans?state=out", one -> true);
    for (HttpResponse<String> answer :
        List.of(
            program.post(
                "/api/recalls",
                "manager",
                JSON.createObjectNode()
                    .put("lotId", given.get("lotId").asText())
                    .put("reason", "Gel may come off")
                    .put("reference", "Notice 26-114")
                    .toString()),
            program.post(
                "/api/incidents",
                "manager",
                JSON.createObjectNode()
                    .put("unitTag", loan.get("unitTag").asText())
                    .put("kind", "skin-reaction")
                    .put("harm", "treated")
                    .put("words", "Red and patchy under the lower pad. Stopped, pads off.")
                    .toString()))) {
      assertThat(answer.statusCode()).as(answer.body()).isEqualTo(201);
    }
  }

  private JsonNode first(String path, Predicate<JsonNode> wanted) throws Exception {
    for (JsonNode one : JSON.readTree(program.get(path, "manager").body()).get("items")) {
      if (wanted.test(one)) {
        return one;
      }
    }
    throw new AssertionError("The demo has nothing of this kind: " + path);
  }

  @AfterAll
  void stop() throws Exception {
    program.close();
  }

  @ParameterizedTest
  @ValueSource(strings = {"frontdesk", "therapist", "manager"})
  void is_usable_by_everybody(String user) {
    List<String> wrong = new ArrayList<>();
    try (Browser browser = Browser.at(program.base())) {
      browser.signIn(user, "demo-clinic-only");
      Map<String, String> pages = walk(browser.page(), START.get(user));
      assertThat(pages).as("pages of " + user).hasSizeGreaterThan(8);
      pages.forEach(
          (kind, path) -> {
            browser.page().navigate(path);
            browser.picture(user + kind.replaceAll("[^A-Za-z*]+", "-").replace("*", "one"));
            if (!showsAnythingNew(kind, browser.page())) {
              return;
            }
            for (Runnable look :
                List.<Runnable>of(
                    browser::axeFindsNothing,
                    () -> browser.fitsAt(360),
                    () -> browser.fitsAt(320),
                    browser::tabReachesEverything)) {
              try {
                look.run();
              } catch (AssertionError | RuntimeException failed) {
                wrong.add(path + ": " + failed.getMessage());
              }
            }
          });
      wrong.addAll(browser.complaints());
    }
    assertThat(wrong).isEmpty();
  }

  @SuppressWarnings("unchecked")
  private boolean showsAnythingNew(String kind, Page page) {
    return lookedAt
        .computeIfAbsent(kind, any -> ConcurrentHashMap.newKeySet())
        .addAll((List<String>) page.evaluate(PARTS));
  }

  /** One path of each kind of page: numbers and tags in it stand for one another. */
  private static Map<String, String> walk(Page page, String start) {
    Map<String, String> pages = new LinkedHashMap<>();
    Deque<String> open = new ArrayDeque<>(List.of(start, "/"));
    Set<String> seen = new LinkedHashSet<>();
    while (!open.isEmpty() && seen.size() < 400) {
      String path = open.poll();
      String kind = kind(path);
      if (!seen.add(path) || pages.containsKey(kind)) {
        continue;
      }
      Response answer = page.navigate(path);
      assertThat(answer.status()).as(path).isEqualTo(200);
      String type = String.valueOf(answer.headers().get("content-type"));
      if (!type.startsWith("text/html")) {
        continue;
      }
      pages.put(kind, path);
      @SuppressWarnings("unchecked")
      List<String> links =
          (List<String>)
              page.evaluate(
                  "[...document.querySelectorAll('main a[href], nav a[href]')]"
                      + ".filter(a => a.origin === location.origin && !a.hasAttribute('download'))"
                      + ".map(a => a.pathname + a.search)");
      for (String link : links) {
        if (NO_PAGES.stream().noneMatch(URI.create(link).getPath()::startsWith)
            && !link.endsWith(".csv")
            && !link.contains("/exports/")) {
          open.add(link);
        }
      }
    }
    return pages;
  }

  private static String kind(String path) {
    String bare = path.replaceAll("#.*", "");
    String query = bare.contains("?") ? bare.substring(bare.indexOf('?')) : "";
    StringBuilder kind = new StringBuilder();
    for (String step : bare.replaceAll("\\?.*", "").split("/")) {
      kind.append('/').append(step.matches(".*[0-9A-Z].*") ? "*" : step);
    }
    return (kind.isEmpty() ? "start" : kind.substring(1)) + query.replaceAll("=[^&]*", "");
  }
}
