package clinic.stimshelf.remind;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.location.ClosureView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.ReachBy;
import clinic.stimshelf.testing.Crew;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Reminders are those of the loan as it stands, whatever happens to it. */
@QuarkusTest
class RemindersFollowTest {
  @Inject RemindScene scenes;
  @Inject LendingScene lending;
  @Inject Crew crew;
  @Inject Locations locations;
  @Inject Changes changes;

  private RemindScene.Lent lent;
  private LocalDate due;

  @BeforeEach
  void lend() {
    lent = scenes.lent();
    due = LocalDate.parse(loan("dueOn"));
  }

  private String loan(String field) {
    return LendingScene.get(lent.scene().desk(), "/api/loans/" + lent.loanId())
        .extract()
        .path(field);
  }

  private List<String> waiting() {
    return scenes.waiting(lent.patientId()).stream().map(one -> one.kind).toList();
  }

  private LocalDate day(String kind) {
    return scenes.waiting(lent.patientId()).stream()
        .filter(one -> one.kind.equals(kind))
        .findFirst()
        .orElseThrow()
        .onDay;
  }

  @Test
  void every_step_of_the_ladder_is_stored_when_the_unit_leaves() {
    assertThat(waiting())
        .contains(
            "start-check",
            "middle",
            "pad-change",
            "return-ask",
            "return-soon",
            "return-today",
            "late-text",
            "late-call",
            "manager-call",
            "letter",
            "charge-or-write-off")
        .doesNotContain("appointment");
    assertThat(scenes.waiting(lent.patientId()))
        .as("at nine o'clock in New York, in winter and in summer")
        .filteredOn(one -> one.step.equals("message"))
        .allSatisfy(
            one -> {
              assertThat(one.route).isEqualTo(Route.EMAIL);
              assertThat(one.dueAt).isEqualTo(scenes.instant(one.onDay, "09:00"));
            });
    assertThat(day("return-today")).isEqualTo(due);
    assertThat(day("late-text")).isAfter(due);
  }

  @Test
  void looking_again_changes_nothing() {
    List<String> before =
        scenes.of(lent.patientId()).stream().map(one -> one.occasion + one.version).toList();

    changes.everything();

    assertThat(scenes.of(lent.patientId()).stream().map(one -> one.occasion + one.version))
        .containsExactlyElementsOf(before);
  }

  @Test
  void an_extension_moves_them_and_a_check_in_ends_them() {
    LendingScene.post(
            lent.scene().pt(),
            "/api/loans/" + lent.loanId() + "/extension",
            Map.of("weeks", 2, "reason", "goes on"))
        .statusCode(200);
    LocalDate later = LocalDate.parse(loan("dueOn"));

    assertThat(later).isAfter(due);
    assertThat(day("return-today")).isEqualTo(later);
    assertThat(scenes.waiting(lent.patientId())).noneMatch(one -> one.aboutOn.equals(due));

    LendingScene.post(lent.scene().desk(), "/api/loans/" + lent.loanId() + "/return", Map.of())
        .statusCode(200);

    assertThat(waiting()).isEmpty();
    assertThat(scenes.of(lent.patientId()))
        .filteredOn(one -> one.state == ReminderState.CANCELLED)
        .isNotEmpty()
        .allMatch(one -> one.endedAt != null);
  }

  @Test
  void a_void_loan_and_a_death_end_them() {
    RemindScene.Lent other = scenes.lent(lent.scene());
    LendingScene.post(
            lent.scene().desk(),
            "/api/loans/" + lent.loanId() + "/void",
            Map.of("reason", "the wrong unit"))
        .statusCode(200);
    scenes.change(
        lent.scene(),
        other.patientId(),
        ReachBy.EMAIL,
        "Ada Lindqvist",
        "en",
        other.email(),
        LendingScene.TUESDAY);

    assertThat(waiting()).isEmpty();
    assertThat(scenes.waiting(other.patientId())).isEmpty();
  }

  @Test
  void a_closed_day_moves_what_comes_before_earlier_and_what_comes_after_later() {
    LocalDate soon = day("return-soon");
    LocalDate late = day("late-text");
    for (LocalDate day : List.of(soon, late)) {
      crew.as(
          lent.scene().manager().id(),
          () -> {
            locations.close(lent.scene().location(), new ClosureView(day, null, null, "flood"));
            return null;
          });
    }

    assertThat(day("return-soon")).isBefore(soon);
    assertThat(day("late-text")).isAfter(late);
    assertThat(scenes.of(lent.patientId()).stream().map(one -> one.occasion))
        .as("moved, not told anew")
        .doesNotHaveDuplicates();
  }

  @Test
  void an_appointment_is_told_the_open_day_before_and_anew_when_it_moves() {
    Map<String, Object> booking = new HashMap<>();
    booking.put("patientId", String.valueOf(lent.patientId()));
    booking.put("location", lent.scene().code());
    booking.put("startsAt", "2026-03-09T10:00:00-04:00");
    booking.put("endsAt", "2026-03-09T10:30:00-04:00");
    String id =
        LendingScene.post(lent.scene().desk(), "/api/appointments", booking)
            .statusCode(201)
            .extract()
            .path("id");

    assertThat(day("appointment")).as("Friday before the Monday").isEqualTo("2026-03-06");

    LendingScene.post(
            lent.scene().desk(),
            "/api/appointments/" + id + "/cancellation",
            Map.of("reason", "away"))
        .statusCode(200);

    assertThat(waiting()).doesNotContain("appointment");
  }

  @Test
  void of_those_who_are_called_only_what_matters_is_called_about() {
    scenes.change(
        lent.scene(), lent.patientId(), ReachBy.CALL, "Ada Lindqvist", "en", lent.email(), null);

    assertThat(waiting())
        .contains("return-soon", "late-text", "late-call")
        .doesNotContain("start-check", "middle", "pad-change", "return-ask");
    assertThat(scenes.waiting(lent.patientId())).noneMatch(one -> one.route.sent());
  }
}
