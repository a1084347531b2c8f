package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.loans.LendingScene;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * What another system is handed. The codes are those of the required bindings in HL7 FHIR R4
 * (4.0.1), hl7.org/fhir/R4; the whole file is held against HL7's definitions by {@code mvn -Pfhir
 * verify}, which reads the file that this test writes.
 */
@QuarkusTest
class FhirHandOverTest {
  private static final Path FILE = Path.of("target", "fhir", "bundle.json");

  private static final Map<String, Set<String>> STATUS =
      Map.of(
          "Location", Set.of("active", "suspended", "inactive"),
          "Device", Set.of("active", "inactive", "entered-in-error", "unknown"),
          "DeviceUseStatement",
              Set.of("active", "completed", "entered-in-error", "intended", "stopped", "on-hold"),
          "SupplyDelivery", Set.of("in-progress", "completed", "abandoned", "entered-in-error"),
          "Appointment",
              Set.of(
                  "proposed",
                  "pending",
                  "booked",
                  "arrived",
                  "fulfilled",
                  "cancelled",
                  "noshow",
                  "entered-in-error",
                  "checked-in",
                  "waitlist"));

  @Inject LendingScene lending;

  @Test
  void everythingIsThereRefersToWhatIsThereAndUsesTheStandardsCodes() throws Exception {
    LendingScene.Scene scene = lending.open();
    String program = lending.signed(scene);
    String unit = lending.unit(scene);
    lending.lent(scene, program, unit);
    String patient =
        LendingScene.get(scene.pt(), "/api/programs/" + program).extract().path("patientId");
    LendingScene.post(
            scene.desk(),
            "/api/appointments",
            Map.of(
                "location",
                scene.code(),
                "patientId",
                patient,
                "startsAt",
                "2026-03-05T10:00:00-05:00",
                "endsAt",
                "2026-03-05T10:40:00-05:00",
                "channels",
                0))
        .statusCode(201);

    String text =
        LendingScene.get(scene.manager(), "/api/exports/fhir?location=" + scene.code())
            .statusCode(200)
            .contentType("application/fhir+json")
            .extract()
            .asString();
    Files.createDirectories(FILE.getParent());
    Files.writeString(FILE, text);

    JsonNode bundle = new ObjectMapper().readTree(text);
    assertThat(bundle.path("resourceType").asText()).isEqualTo("Bundle");
    assertThat(bundle.path("type").asText()).isEqualTo("collection");
    Set<String> there = new HashSet<>();
    List<JsonNode> resources = new ArrayList<>();
    for (JsonNode entry : bundle.path("entry")) {
      assertThat(there.add(entry.path("fullUrl").asText())).as("each once").isTrue();
      resources.add(entry.path("resource"));
    }
    for (JsonNode resource : resources) {
      for (JsonNode reference : resource.findValues("reference")) {
        assertThat(there).contains(reference.asText());
      }
      Set<String> allowed = STATUS.get(resource.path("resourceType").asText());
      if (allowed != null) {
        assertThat(allowed).contains(resource.path("status").asText());
      }
    }
    JsonNode use = only(resources, "DeviceUseStatement");
    assertThat(use.path("status").asText()).isEqualTo("active");
    assertThat(use.path("timingPeriod").has("end")).isFalse();
    assertThat(only(resources, "Device").at("/identifier/0/value").asText()).isEqualTo(unit);
    assertThat(only(resources, "SupplyDelivery").at("/suppliedItem/quantity/value").asInt())
        .isEqualTo(2);
    JsonNode appointment = only(resources, "Appointment");
    assertThat(appointment.path("start").asText()).isEqualTo("2026-03-05T15:00:00Z");
    assertThat(appointment.path("minutesDuration").asInt()).isEqualTo(40);
  }

  @Test
  void isForManagers() {
    LendingScene.Scene scene = lending.open();
    LendingScene.get(scene.pt(), "/api/exports/fhir").statusCode(403);
    LendingScene.get(scene.desk(), "/api/exports/fhir").statusCode(403);
  }

  private static JsonNode only(List<JsonNode> resources, String type) {
    List<JsonNode> found =
        resources.stream().filter(one -> one.path("resourceType").asText().equals(type)).toList();
    assertThat(found).as(type).hasSize(1);
    return found.get(0);
  }
}
