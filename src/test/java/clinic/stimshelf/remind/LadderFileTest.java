package clinic.stimshelf.remind;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.web.ConfigFiles;
import org.junit.jupiter.api.Test;

/** The ladder stands in a file, for every location or for one. */
class LadderFileTest {
  private static final String FILE =
      """
      steps:
        - key: return-soon
          anchor: due
          days: -2
          channel: message
          words: The return day is near
        - key: late-call
          anchor: due
          days: 3
          channel: call
          words: A call about the return
      locations:
        MILL:
          - key: late-call
            anchor: due
            days: 1
            channel: call
            words: A call at once
        QUIET: []
      """;

  @Test
  void a_location_with_a_ladder_of_its_own_uses_that_alone() {
    LadderFile file = ConfigFiles.parse(LadderFile.NAME, FILE, LadderFile.class);

    assertThat(file.at("HARBOR"))
        .extracting(LadderFile.Step::key)
        .containsExactly("return-soon", "late-call");
    assertThat(file.at("MILL")).extracting(LadderFile.Step::days).containsExactly(1);
    assertThat(file.at("QUIET")).as("none at all").isEmpty();
  }
}
