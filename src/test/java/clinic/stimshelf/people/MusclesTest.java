package clinic.stimshelf.people;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.web.ConfigFiles;
import java.util.List;
import org.junit.jupiter.api.Test;

class MusclesTest {
  @Test
  void the_packed_file_is_sound_and_speaks_both_languages() {
    Muscles muscles = shipped();
    assertThat(muscles.all()).hasSizeGreaterThanOrEqualTo(14);
    assertThat(muscles.all())
        .allSatisfy(
            muscle -> {
              assertThat(muscle.placement()).endsWith("as your therapist showed you.");
              assertThat(muscle.placementSpanish()).endsWith("como le mostró su terapeuta.");
              assertThat(muscle.words("es")).isNotEqualTo(muscle.words("en"));
            });
    assertThat(muscles.region(muscles.muscle("quadriceps").region()).limb()).isEqualTo("leg");
  }

  @Test
  void names_everything_that_is_wrong_at_once() {
    Muscles.Body body =
        new Muscles.Body(
            List.of(new BodyRegion("thigh", "thigh", "muslo", "tail", List.of("sky"))),
            List.of(new Muscle("Quad", "quad", " ", "thing", "here", "aquí")));
    assertThatThrownBy(() -> new Muscles(body))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("Region “thigh” needs a limb: arm, leg or trunk.")
        .hasMessageContaining("Region “thigh” needs “near”")
        .hasMessageContaining("Muscle “Quad” needs “key” of a-z, 0-9 and dashes.")
        .hasMessageContaining("Muscle “Quad” needs “spanish”.")
        .hasMessageContaining("names a region that is not listed: “thing”");
  }

  static Muscles shipped() {
    return new Muscles(
        ConfigFiles.parse("muscles.yaml", packed("config/muscles.yaml"), Muscles.Body.class));
  }

  static String packed(String path) {
    try (var in = MusclesTest.class.getClassLoader().getResourceAsStream(path)) {
      return new String(in.readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
