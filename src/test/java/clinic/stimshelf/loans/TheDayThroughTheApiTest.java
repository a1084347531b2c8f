package clinic.stimshelf.loans;

import static clinic.stimshelf.loans.LendingScene.get;
import static clinic.stimshelf.loans.LendingScene.post;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.greaterThan;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasItems;
import static org.hamcrest.Matchers.notNullValue;

import clinic.stimshelf.testing.Crew;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * The clinic's day as scripts live it: screening, program, signature, check out, sessions, an
 * extension, a check in with a lead set missing, wipe, inspection, and what the manager reads.
 */
@QuarkusTest
class TheDayThroughTheApiTest {
  private static final LocalDate TUESDAY = LendingScene.TUESDAY;

  @Inject LendingScene lending;

  @Test
  void aUnitGoesOutWithItsProgramAndPadsAndComesHome() {
    LendingScene.Scene clinic = lending.open();
    orderAndReceive(clinic);
    String unit = newUnit(clinic);
    String patient = newPatient(clinic);
    screen(clinic, patient);

    String program =
        post(clinic.pt(), "/api/programs", lending.body(clinic, Long.valueOf(patient)))
            .statusCode(201)
            .body("sessions", equalTo(84))
            .extract()
            .path("id");
    post(clinic.pt(), "/api/programs/" + program + "/signature", Map.of("reviewed", true))
        .statusCode(200)
        .body("dueOn", equalTo("2026-04-15"));
    String request =
        post(clinic.pt(), "/api/requests", Map.of("programId", program))
            .statusCode(200)
            .body("ahead", equalTo(0))
            .body("sureByOn", notNullValue())
            .extract()
            .path("id");
    post(clinic.desk(), "/api/requests/" + request + "/unit", Map.of("unitTag", unit))
        .statusCode(200)
        .body("state", equalTo("reserved"));
    lending.prepared(clinic, program, unit);

    String loan =
        post(clinic.desk(), "/api/loans", lending.order(clinic, program, unit, 2))
            .statusCode(200)
            .body("remindersOn", hasItems("2026-04-13", "2026-04-15"))
            .extract()
            .path("id");
    get(clinic.desk(), "/api/requests?location=" + clinic.code()).body("total", equalTo(0));

    lending.at(TUESDAY.plusDays(3), "08:30");
    post(
            clinic.pt(),
            "/api/programs/" + program + "/sessions",
            Map.of("on", "2026-03-04", "number", 1, "outcome", "done", "source", "phone"))
        .statusCode(201);
    get(clinic.pt(), "/api/programs/" + program + "/sessions")
        .body("sessions.size()", equalTo(1))
        .body("adherence.done", equalTo(1));

    post(
            clinic.pt(),
            "/api/loans/" + loan + "/extension",
            Map.of("weeks", 1, "reason", "girth still 2 cm less"))
        .statusCode(200)
        .body("dueOn", equalTo("2026-04-22"));

    lending.at(LocalDate.parse("2026-04-22"), "09:05");
    String lead = part(clinic, loan, "lead set");
    post(
            clinic.desk(),
            "/api/loans/" + loan + "/return",
            Map.of("parts", Map.of(lead, "owed"), "note", "leads at his mother's"))
        .statusCode(200)
        .body("owed.findAll{it.owedBy=='patient'}.size()", equalTo(1));

    post(clinic.desk(), "/api/units/" + unit + "/wiped", Map.of("product", "gray-tub"))
        .statusCode(200)
        .body("state", equalTo("to-wipe"));
    lending.at(LocalDate.parse("2026-04-22"), "09:10");
    get(clinic.desk(), "/api/units/" + unit).body("state", equalTo("to-inspect"));
    post(clinic.pt(), "/api/units/" + unit + "/inspected", Map.of("passed", true)).statusCode(200);

    get(clinic.manager(), "/api/pads/" + clinic.pad() + "?location=" + clinic.code())
        .body("onHand", equalTo(108));
    List<Number> packs =
        get(clinic.manager(), "/api/pads/" + clinic.pad() + "/reorder?location=" + clinic.code())
            .statusCode(200)
            .body("projection.size()", greaterThan(27))
            .extract()
            .path("reasons.packs");
    Number reorderPoint =
        get(clinic.manager(), "/api/pads/" + clinic.pad() + "/reorder?location=" + clinic.code())
            .extract()
            .path("reorderPoint");
    assertThat(
            packs.stream()
                .map(one -> new BigDecimal(one.toString()))
                .reduce(BigDecimal.ZERO, BigDecimal::add)
                .doubleValue())
        .isCloseTo(reorderPoint.doubleValue(), org.assertj.core.data.Offset.offset(1e-6));
    get(clinic.manager(), "/api/trail?subject=loan:" + loan)
        .body("items.action", hasItems("checked out", "extended", "checked in"));
    get(clinic.desk(), "/api/trail?subject=loan:" + loan).statusCode(403);
  }

  private void orderAndReceive(LendingScene.Scene clinic) {
    String order =
        post(
                clinic.manager(),
                "/api/orders",
                Map.of(
                    "location",
                    clinic.code(),
                    "supplier",
                    "Larch Supply",
                    "lines",
                    List.of(Map.of("code", clinic.pad(), "packs", 10))))
            .statusCode(201)
            .extract()
            .path("id");
    post(
            clinic.desk(),
            "/api/orders/" + order + "/deliveries",
            Map.of(
                "lines",
                List.of(
                    Map.of(
                        "code",
                        clinic.pad(),
                        "lot",
                        "L-2/A",
                        "expiresOn",
                        TUESDAY.plusMonths(18).toString(),
                        "packs",
                        10))))
        .statusCode(201);
  }

  private String newUnit(LendingScene.Scene clinic) {
    String tag = Crew.unique("DAY-");
    post(
            clinic.manager(),
            "/api/units",
            Map.of(
                "tag",
                tag,
                "serial",
                tag + "-S",
                "kind",
                clinic.kind(),
                "location",
                clinic.code(),
                "purpose",
                "home",
                "nextTestOn",
                TUESDAY.plusMonths(9).toString()))
        .statusCode(201);
    post(clinic.pt(), "/api/units/" + tag + "/inspected", Map.of("passed", true)).statusCode(200);
    post(clinic.desk(), "/api/units/" + tag + "/charged", Map.of()).statusCode(200);
    get(clinic.desk(), "/api/units/" + tag).body("state", equalTo("ready"));
    return tag;
  }

  private String newPatient(LendingScene.Scene clinic) {
    Map<String, Object> body = new LinkedHashMap<>();
    body.put("chartNumber", Crew.unique("D-"));
    body.put("name", "Nilo Arden");
    body.put("birthDate", "1971-06-02");
    body.put("language", "en");
    body.put("reachBy", "call");
    body.put("phone", "(555) 010-0147");
    body.put("remindersAllowed", true);
    body.put("location", clinic.code());
    return post(clinic.desk(), "/api/patients", body).statusCode(201).extract().path("id");
  }

  private void screen(LendingScene.Scene clinic, String patient) {
    List<Map<String, Object>> answers = new ArrayList<>();
    List<Map<String, Object>> questions =
        get(clinic.pt(), "/api/screening-questions?muscle=quadriceps")
            .extract()
            .jsonPath()
            .getList("");
    for (Map<String, Object> question : questions) {
      boolean swollen = "swelling_postop".equals(question.get("key"));
      Map<String, Object> answer = new LinkedHashMap<>();
      answer.put("key", question.get("key"));
      answer.put("answer", swollen ? "yes" : "no");
      if (swollen) {
        answer.put("acceptance", "usual a week after the operation; pads keep off the swelling");
      }
      answers.add(answer);
    }
    post(
            clinic.pt(),
            "/api/patients/" + patient + "/screenings",
            Map.of("muscle", "quadriceps", "side", "left", "answers", answers))
        .statusCode(201);
    get(clinic.pt(), "/api/patients/" + patient + "/screenings/status?muscle=quadriceps&side=left")
        .body("clear", equalTo(true));
  }

  private static String part(LendingScene.Scene clinic, String loan, String words) {
    List<Map<String, Object>> parts =
        get(clinic.desk(), "/api/loans/" + loan)
            .body("parts.words", hasItem(words(words)))
            .extract()
            .path("parts");
    return parts.stream()
        .filter(one -> String.valueOf(one.get("words")).startsWith(words))
        .map(one -> String.valueOf(one.get("id")))
        .findFirst()
        .orElseThrow();
  }

  private static org.hamcrest.Matcher<String> words(String start) {
    return org.hamcrest.Matchers.startsWith(start);
  }
}
