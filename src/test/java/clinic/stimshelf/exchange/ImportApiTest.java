package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasSize;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

@QuarkusTest
class ImportApiTest {
  @Inject Crew crew;

  private String code;

  private Member manager() {
    code = Crew.unique("Import");
    return crew.withPassword(Roles.MANAGER, Credential.NONE, crew.location(code));
  }

  private String staff(String... lines) {
    return "ref;name;credential;role;locations\n" + String.join("\n", lines) + "\n";
  }

  @Test
  void aDryRunEntersNothingAndTheRealRunEntersOnce() {
    Member manager = manager();
    String ref = Crew.unique("imp");
    String file = staff(ref + ";Ana Ruiz;PTA;therapist;" + code);
    manager
        .script()
        .contentType("text/csv; charset=UTF-8")
        .body(file)
        .post("/api/imports?what=staff&dryRun=true")
        .then()
        .statusCode(200)
        .body("state", equalTo("checked"))
        .body("files[0].entered", equalTo(1));
    for (int entered : new int[] {1, 0}) {
      manager
          .script()
          .contentType("text/csv; charset=UTF-8")
          .body(file)
          .post("/api/imports?what=staff")
          .then()
          .statusCode(200)
          .body("state", equalTo("done"))
          .body("files[0].entered", equalTo(entered))
          .body("files[0].unchanged", equalTo(1 - entered));
    }
    String csv =
        manager
            .script()
            .get("/api/exports/staff?location=" + code)
            .then()
            .statusCode(200)
            .extract()
            .asString();
    assertThat(csv).startsWith("\uFEFFref,name,").contains(ref + ",Ana Ruiz,AR,pta");
  }

  @Test
  void refusesWithEveryFaultNamed() {
    manager()
        .script()
        .multiPart(
            "files",
            "staff.csv",
            staff("a b;X;PT;therapist;" + code, "ok1;;PTX;boss;nowhere")
                .getBytes(StandardCharsets.UTF_8),
            "text/csv")
        .post("/api/imports")
        .then()
        .statusCode(422)
        .contentType(containsString("application/problem+json"))
        .body("errors", hasSize(5))
        .body("errors.field", hasItem("staff.csv[3].role"))
        .body(
            "errors.message",
            hasItem(
                "staff.csv, line 3, role, “boss”: Allowed is one of front-desk, therapist, manager."));
  }

  @Test
  void onlyManagersBringInAndTakeOut() {
    manager();
    Member desk = crew.member(Roles.FRONT_DESK, Credential.NONE, crew.location(Crew.unique("Imp")));
    desk.script()
        .contentType("text/csv")
        .body("x")
        .post("/api/imports?what=staff")
        .then()
        .statusCode(403);
    desk.script().get("/api/exports/staff").then().statusCode(403);
    desk.script().get("/settings/import").then().statusCode(403);
  }

  @Test
  void anUnknownKindIsNamedWithThoseThatAre() {
    Member manager = manager();
    manager
        .script()
        .get("/api/exports/toys")
        .then()
        .statusCode(404)
        .body("detail", containsString("locations"));
    manager
        .script()
        .multiPart("files", "toys.csv", "a".getBytes(StandardCharsets.UTF_8), "text/csv")
        .post("/api/imports")
        .then()
        .statusCode(422)
        .body("errors[0].message", containsString("toys.csv"));
  }

  @Test
  void thePageChecksFirstAndEntersWhenTold() throws InterruptedException {
    Member manager = manager();
    Browser browser = Crew.signIn(manager);
    browser.get().get("/settings/import").then().statusCode(200).body(containsString("Take out"));
    String ref = Crew.unique("imp");
    Response sent =
        browser
            .get()
            .multiPart("csrf", browser.csrf())
            .multiPart("what", "")
            .multiPart(
                "files",
                "staff.csv",
                staff(ref + ";Bo Lind;AIDE;front-desk;" + code).getBytes(StandardCharsets.UTF_8),
                "text/csv")
            .post("/settings/import");
    assertThat(sent.statusCode()).isEqualTo(303);
    String page = sent.getHeader("Location");
    assertThat(waitFor(browser, page)).contains("Enter these rows");
    browser.form().post(page + "/enter").then().statusCode(303);
    assertThat(waitFor(browser, page)).contains("<h2>Entered</h2>");
    browser.get().get("/api/exports/staff").then().body(containsString(ref));
  }

  @Test
  void thePageListsFaultsAndAnotherManagerDoesNotSeeThem() throws InterruptedException {
    Browser browser = Crew.signIn(manager());
    Response sent =
        browser
            .get()
            .multiPart("csrf", browser.csrf())
            .multiPart(
                "files",
                "staff.csv",
                "ref,name\nx,=1\n".getBytes(StandardCharsets.UTF_8),
                "text/csv")
            .post("/settings/import");
    String page = sent.getHeader("Location");
    assertThat(waitFor(browser, page)).contains("The column credential is missing");
    browser
        .get()
        .get(page + "/faults.csv")
        .then()
        .statusCode(200)
        .body(containsString("credential"));
    Crew.signIn(manager()).get().get(page).then().statusCode(404);
  }

  private static String waitFor(Browser browser, String page) throws InterruptedException {
    String text = "";
    for (int i = 0; i < 100; i++) {
      text = browser.get().get(page).then().statusCode(200).extract().asString();
      if (!text.contains("<progress")) {
        return text;
      }
      Thread.sleep(100);
    }
    return text;
  }
}
