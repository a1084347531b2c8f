package clinic.stimshelf.loans;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.not;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * Lending never takes what booked treatments need; a patient's own treatments need nothing more.
 */
@QuarkusTest
class LentOnlyAsLongAsTreatmentsAllowTest {
  /** A Thursday before the program's due day. */
  private static final LocalDate DAY = LocalDate.of(2026, 3, 5);

  @Inject LendingScene lending;

  @Test
  void a_unit_that_a_treatment_needs_before_the_due_day_does_not_leave() {
    LendingScene.Scene scene = lending.open();
    String program = lending.signed(scene);
    String unit = lending.unit(scene);
    lending.prepared(scene, program, unit);
    booked(scene, patientOf(scene, lending.signed(scene)));

    LendingScene.post(scene.desk(), "/api/loans", lending.order(scene, program, unit, 2))
        .statusCode(422)
        .body("errors.message", hasItem(containsString("cannot stay away that long")))
        .body("errors.message", not(hasItem(containsString(scene.code()))));

    String spare = lending.unit(scene);
    lending.confirmed(scene, program, spare);
    // Now one of the two can stay for the treatment.
    LendingScene.post(scene.desk(), "/api/loans", lending.order(scene, program, unit, 2))
        .statusCode(200);
  }

  @Test
  void a_patient_s_own_treatments_are_served_by_the_unit_they_take_home() {
    LendingScene.Scene scene = lending.open();
    String program = lending.signed(scene);
    String unit = lending.unit(scene);
    lending.prepared(scene, program, unit);
    booked(scene, patientOf(scene, program));

    LendingScene.post(scene.desk(), "/api/loans", lending.order(scene, program, unit, 2))
        .statusCode(200);
  }

  private static String patientOf(LendingScene.Scene scene, String program) {
    return LendingScene.get(scene.pt(), "/api/programs/" + program).extract().path("patientId");
  }

  private static void booked(LendingScene.Scene scene, String patient) {
    LendingScene.post(
            scene.desk(),
            "/api/appointments",
            Map.of(
                "location",
                scene.code(),
                "patientId",
                patient,
                "startsAt",
                DAY + "T10:00:00-05:00",
                "endsAt",
                DAY + "T10:40:00-05:00",
                "channels",
                2))
        .statusCode(201);
  }
}
