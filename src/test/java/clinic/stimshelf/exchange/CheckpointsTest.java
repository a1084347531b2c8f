package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.testing.Crew;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import org.junit.jupiter.api.Test;

@QuarkusTest
class CheckpointsTest {
  @Inject Checkpoints checkpoints;
  @Inject Crew crew;

  @Test
  void syncsOnlyWhenSomethingWasWritten() {
    checkpoints.sync();
    checkpoints.sync();
    assertThat(checkpoints.sync()).isFalse();
    crew.location(Crew.unique("Check"));
    assertThat(checkpoints.sync()).isTrue();
  }
}
