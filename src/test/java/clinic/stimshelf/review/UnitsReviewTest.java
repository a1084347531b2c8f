package clinic.stimshelf.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import clinic.stimshelf.review.UnitsView.Stretch;
import clinic.stimshelf.testing.MutableClock;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

@QuarkusTest
class UnitsReviewTest {
  private static final Instant HANDED_OVER = Instant.parse("2026-01-15T14:00:00Z");

  @Inject PastClinic past;
  @Inject EntityManager em;
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

  /** Two sessions a day from January 12th to 16th; on the 15th another unit was handed over. */
  @Test
  @ActivateRequestContext
  void afterASwapSessionsCountWithTheUnitThatTheyWereDoneWith() {
    PastClinic.Scene scene = past.open();
    String after = past.program(scene, 5, 10, "2026-02-23", "2026-02-23T10:00");
    String before = after + "-B";
    Map<String, String> files = new LinkedHashMap<>();
    files.put(
        "units",
        "tag,serial,kind,location,purpose,state,next_test_on\n"
            + String.join(
                ",", before, before, scene.pad(), scene.code(), "home,ready,2027-01-01\n"));
    files.put(
        "unit-faults",
        "ref,unit,kind,noticed_at,words\n"
            + (after + "-f1," + before + ",fault,2026-01-15T09:00,No output\n")
            + (after + "-f2," + after + ",fault,2026-02-01T09:00,Loose socket\n"));
    past.enter(scene, files);
    QuarkusTransaction.requiringNew().run(() -> handOver(before, after));
    assertThat(look(scene).faults())
        .extracting(UnitsView.Failing::tag, UnitsView.Failing::sessions)
        .containsExactlyInAnyOrder(tuple(before, 6L), tuple(after, 4L));
  }

  /** As a swap leaves the uses of both. */
  private void handOver(String before, String after) {
    em.createNativeQuery(
            "insert into unit_use (id, version, unit_id, use_kind, subject_id, starts_at, ended_at,"
                + " voided) select -u.id, 0, (select b.id from unit b where b.tag = ?1), u.use_kind,"
                + " u.subject_id, u.starts_at, ?2, false from unit_use u where u.unit_id ="
                + " (select a.id from unit a where a.tag = ?3)")
        .setParameter(1, before)
        .setParameter(2, HANDED_OVER)
        .setParameter(3, after)
        .executeUpdate();
    em.createNativeQuery(
            "update unit_use set starts_at = ?1 where unit_id ="
                + " (select a.id from unit a where a.tag = ?2)")
        .setParameter(1, HANDED_OVER)
        .setParameter(2, after)
        .executeUpdate();
  }

  private UnitsView look(PastClinic.Scene scene) {
    return units.of(
        List.of(scene.location()),
        new Period(LocalDate.parse("2026-01-01"), LocalDate.parse("2026-04-30")));
  }
}
