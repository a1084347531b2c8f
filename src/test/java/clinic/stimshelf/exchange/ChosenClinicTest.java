package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import io.smallrye.config.PropertiesConfigSource;
import io.smallrye.config.SmallRyeConfig;
import io.smallrye.config.SmallRyeConfigBuilder;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ChosenClinicTest {
  @TempDir Path data;

  @Test
  void theDemoIsOpenedUntilAClinicIsSetUp() throws IOException {
    assertThat(config(Map.of())).containsEntry("clinic", "demo").containsEntry("demo", "true");
    Path marker = ChosenClinic.marker(data);
    Files.createDirectories(marker.getParent());
    Files.writeString(marker, "chosen");
    assertThat(config(Map.of())).containsEntry("clinic", "clinic").containsEntry("demo", "false");
  }

  @Test
  void whatIsConfiguredCountsMore() throws IOException {
    assertThat(config(Map.of("stimshelf.clinic", "downtown")))
        .containsEntry("clinic", "downtown")
        .containsEntry("demo", "false");
    Path marker = ChosenClinic.marker(data);
    Files.createDirectories(marker.getParent());
    Files.writeString(marker, "chosen");
    assertThat(config(Map.of("stimshelf.clinic", "demo")))
        .containsEntry("clinic", "demo")
        .containsEntry("demo", "true");
  }

  @Test
  void aDatabaseOnAServerIsNoDemoUnlessAskedFor() {
    assertThat(config(Map.of("quarkus.datasource.db-kind", "postgresql")))
        .containsEntry("demo", "false");
    assertThat(config(Map.of("quarkus.datasource.db-kind", "postgresql", "stimshelf.demo", "true")))
        .containsEntry("demo", "true");
  }

  @Test
  void whatTheBuildNotedDownIsNobodysChoice() throws IOException {
    Path marker = ChosenClinic.marker(data);
    Files.createDirectories(marker.getParent());
    Files.writeString(marker, "chosen");
    SmallRyeConfig config =
        builder(Map.of())
            .withSources(
                new PropertiesConfigSource(
                    Map.of(ChosenClinic.CLINIC, "demo", ChosenClinic.DEMO, "true"), "built", 0))
            .build();
    assertThat(config.getRawValue(ChosenClinic.CLINIC)).isEqualTo("clinic");
    assertThat(config.getRawValue(ChosenClinic.DEMO)).isEqualTo("false");
  }

  @Test
  void theDatabaseIsNeverGivenASilentlyRelativeFolder() {
    assertThat(builder(Map.of()).build().getRawValue(ChosenClinic.FOLDER))
        .isEqualTo(data.toString());
    assertThat(builder(Map.of(ChosenClinic.DATA, "rows")).build().getRawValue(ChosenClinic.FOLDER))
        .isEqualTo("./rows");
  }

  private Map<String, String> config(Map<String, String> given) {
    SmallRyeConfig config = builder(given).build();
    return Map.of(
        "clinic", config.getRawValue(ChosenClinic.CLINIC),
        "demo", config.getRawValue(ChosenClinic.DEMO));
  }

  private SmallRyeConfigBuilder builder(Map<String, String> given) {
    Map<String, String> values = new HashMap<>(given);
    values.putIfAbsent(ChosenClinic.DATA, data.toString());
    return new SmallRyeConfigBuilder()
        .withSources(new PropertiesConfigSource(values, "given", 260))
        .withSources(new ChosenClinic())
        .addDefaultInterceptors();
  }
}
