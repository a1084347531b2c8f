package clinic.stimshelf.desk;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.appointments.Appointments;
import clinic.stimshelf.appointments.NewAppointment;
import clinic.stimshelf.appointments.Visits;
import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.testing.Crew;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalTime;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Lent on Tuesday, March 3; the location's proposal is a call after 14 days without a visit. */
@QuarkusTest
class CallTasksTest {
  @Inject LendingScene lending;
  @Inject CallTasks tasks;
  @Inject Appointments appointments;
  @Inject Visits visits;
  @Inject Crew crew;

  private LendingScene.Scene scene;
  private String program;
  private String loan;
  private Long patient;

  @BeforeEach
  void lend() {
    scene = lending.open();
    program = lending.signed(scene);
    loan = lending.lent(scene, program, lending.unit(scene));
    patient =
        Long.valueOf(
            LendingScene.get(scene.pt(), "/api/programs/" + program)
                .extract()
                .<String>path("patientId"));
  }

  private Long book(int days) {
    Instant start =
        LendingScene.TUESDAY
            .plusDays(days)
            .atTime(LocalTime.of(11, 0))
            .atZone(LendingScene.ZONE)
            .toInstant();
    return crew.as(
        scene.pt().id(),
        () ->
            appointments.book(
                new NewAppointment(
                    scene.location(),
                    patient,
                    null,
                    null,
                    null,
                    start,
                    start.plusSeconds(1800),
                    null,
                    null,
                    0,
                    null)));
  }

  private void missed(Long appointment) {
    crew.as(
        scene.pt().id(),
        () -> {
          visits.noShow(appointment, null, null);
          return null;
        });
  }

  private List<String> why(int days) {
    lending.at(LendingScene.TUESDAY.plusDays(days), "13:00");
    return crew.as(scene.desk().id(), () -> tasks.at(scene.location())).stream()
        .map(CallTasks.Task::why)
        .toList();
  }

  @Test
  void fourteen_days_without_a_visit_ask_for_a_call_and_a_logged_call_settles_it() {
    assertThat(why(13)).isEmpty();
    assertThat(why(14)).containsExactly("No visit for 14 days with a unit at home");
    LendingScene.post(scene.desk(), "/api/contacts", Map.of("loanId", loan, "outcome", "reached"))
        .statusCode(201);
    assertThat(why(14)).isEmpty();
  }

  @Test
  void two_no_shows_in_a_row_ask_for_a_call_and_one_does_not() {
    Long first = book(2);
    Long second = book(3);
    lending.at(LendingScene.TUESDAY.plusDays(3), "12:30");
    missed(first);
    assertThat(why(3)).isEmpty();
    missed(second);
    assertThat(why(3)).containsExactly("Did not come to the last 2 appointments");
  }

  @Test
  void a_program_that_was_ended_asks_for_the_unit() {
    lending.at(LendingScene.TUESDAY.plusDays(2), "10:00");
    LendingScene.post(
            scene.pt(), "/api/programs/" + program + "/stop", Map.of("reason", "discharged"))
        .statusCode(200);
    assertThat(why(2)).containsExactly("The program was ended; the unit is out");
  }
}
