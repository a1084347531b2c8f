package clinic.stimshelf.review;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.review.UnitsView.Stretch;
import clinic.stimshelf.testing.MutableClock;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;

@QuarkusTest
class UnitsReviewTest {
  @Inject PastClinic past;
  @Inject UnitsReview units;
  @Inject MutableClock clock;

  /** Due on February 23rd and back on it: in time; the one that is out counts once it is late. */
  @Test
  @ActivateRequestContext
  void loansAreToldByHowLateTheyCameIn() {
    PastClinic.Scene scene = past.open();
    past.program(scene, 5, 10);
    past.program(scene, 5, 10, "2026-02-23", "2026-02-28T10:00");
    past.program(scene, 5, 10, "2026-04-15", "");
    assertThat(look(scene).stretches()).extracting(Stretch::loans).containsExactly(1, 0, 1, 0, 0);
    assertThat(look(scene).middleDaysLate()).isEqualTo(5);
    clock.set(Instant.parse("2026-04-25T14:00:00Z"));
    assertThat(look(scene).stretches()).extracting(Stretch::loans).containsExactly(1, 0, 1, 1, 0);
    assertThat(look(scene).late()).isEqualTo(2);
  }

  private UnitsView look(PastClinic.Scene scene) {
    return units.of(
        List.of(scene.location()),
        new Period(LocalDate.parse("2026-01-01"), LocalDate.parse("2026-04-30")));
  }
}
