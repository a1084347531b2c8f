package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** 50 000 rows with a display of how far it is; the last row decides that nothing is entered. */
@QuarkusTest
class ManyRowsTest {
  private static final int ROWS = 50_000;
  private static final Pattern FAR = Pattern.compile("(\\d+) of about (\\d+) rows");

  @Inject Crew crew;

  @Test
  void fiftyThousandRowsShowHowFarTheyAreAndAreAllOrNothing() throws InterruptedException {
    String at = Crew.unique("Many");
    Browser browser =
        Crew.signIn(crew.withPassword(Roles.MANAGER, Credential.NONE, crew.location(at)));
    StringBuilder file =
        new StringBuilder("chart_number,location,name,birth_date,reach_by,phone\n");
    for (int i = 1; i <= ROWS; i++) {
      file.append(at).append('-').append(i).append(',').append(at).append(",Patient ").append(i);
      file.append(i == ROWS ? ",2/30/1980" : ",2/3/1980").append(",call,(555) 010-0100\n");
    }
    Response sent =
        browser
            .get()
            .multiPart("csrf", browser.csrf())
            .multiPart(
                "files",
                "patients.csv",
                file.toString().getBytes(StandardCharsets.UTF_8),
                "text/csv")
            .post("/settings/import");
    String page = sent.getHeader("Location");
    TreeSet<Integer> seen = new TreeSet<>();
    String text = "<progress";
    for (int i = 0; i < 1200 && text.contains("<progress"); i++) {
      text = browser.get().get(page).then().statusCode(200).extract().asString();
      Matcher far = FAR.matcher(text);
      if (far.find()) {
        seen.add(Integer.parseInt(far.group(1)));
      }
      Thread.sleep(250);
    }
    assertThat(seen).as("steps shown on the way").hasSizeGreaterThan(3);
    assertThat(text)
        .contains("Nothing was entered: 1")
        .contains(">" + (ROWS + 1) + "<", "birth_date");
    assertThat(browser.get().get("/api/exports/patients?location=" + at).asString())
        .doesNotContain("Patient 1");
  }
}
