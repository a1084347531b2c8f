package clinic.stimshelf.program;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.hamcrest.Matchers.equalTo;

import clinic.stimshelf.calc.days.DueDay;
import clinic.stimshelf.people.Side;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Refusal;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

@QuarkusTest
class PastProgramsTest {
  private static final LocalDate START = LocalDate.parse("2026-02-02");

  @Inject Desk desk;
  @Inject PastPrograms past;
  @Inject Programs programs;
  @Inject SessionLogs sessions;
  @Inject Crew crew;

  @BeforeEach
  void onTuesday() {
    desk.at("2026-03-03", "09:00");
  }

  @Test
  void aSignedProgramEntersOnceWithWhatFollowsFromIt() {
    Desk.Scene scene = desk.scene();
    String ref = Crew.unique("p-");
    Long id = enter(scene, entry(scene, ref, 6));
    assertThat(enter(scene, entry(scene, ref, 6))).isEqualTo(id);
    SignedProgram signed = programs.signed(id).orElseThrow();
    assertThat(signed.lastSessionOn()).isEqualTo("2026-03-15");
    assertThat(signed.dueOn()).isEqualTo("2026-03-16");
    assertThat(signed.firstSessionDone()).isTrue();
    assertThat(signed.packsNowTotal()).as("three sets opened by today and a spare").isEqualTo(4);
    scene.get(String.valueOf(id)).body("state", equalTo("signed")).body("sessions", equalTo(84));
  }

  @Test
  void sessionsEnterOnceAndCount() {
    Desk.Scene scene = desk.scene();
    Long id = enter(scene, entry(scene, Crew.unique("p-"), 6));
    String ref = Crew.unique("l-");
    Long first = session(scene, id, ref, 1, Outcome.DONE);
    assertThat(session(scene, id, ref, 1, Outcome.DONE)).isEqualTo(first);
    assertThat(session(scene, id, Crew.unique("l-"), 1, Outcome.NOT)).isEqualTo(first);
    session(scene, id, Crew.unique("l-"), 2, Outcome.NOT);
    Adherence adherence =
        crew.as(scene.pt().id(), () -> sessions.adherence(id, LocalDate.parse("2026-02-03")));
    assertThat(adherence.done()).isEqualTo(1);
    assertThat(adherence.missed()).isEqualTo(1);
    assertThat(adherence.planned()).isEqualTo(2);
  }

  @Test
  void everyFaultOfARowIsNamed() {
    Desk.Scene scene = desk.scene();
    assertThatThrownBy(() -> enter(scene, entry(scene, Crew.unique("p-"), null)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Weeks is missing");
    assertThatThrownBy(() -> session(scene, -1L, null, 99, null))
        .isInstanceOfSatisfying(
            Refusal.class,
            refusal ->
                assertThat(refusal.reasons())
                    .extracting("field")
                    .contains("program", "number", "outcome"));
  }

  private Long enter(Desk.Scene scene, PastProgram entry) {
    return crew.as(scene.pt().id(), () -> past.enterProgram(entry));
  }

  private Long session(Desk.Scene scene, Long program, String ref, int nth, Outcome outcome) {
    return crew.as(
        scene.pt().id(),
        () ->
            past.enterSession(
                new PastSession(
                    ref,
                    program,
                    START,
                    nth,
                    outcome,
                    LogSource.DIARY,
                    15,
                    null,
                    null,
                    null,
                    false,
                    false,
                    null)));
  }

  private static PastProgram entry(Desk.Scene scene, String ref, Integer weeks) {
    return new PastProgram(
        ref,
        scene.patient(),
        scene.location(),
        scene.pt().id(),
        null,
        new DoseEntry(
            new BigDecimal("15"),
            new BigDecimal("45"),
            new BigDecimal("3"),
            null,
            true,
            null,
            15,
            null,
            new BigDecimal("50"),
            FrequencyKind.PULSES,
            new BigDecimal("250"),
            "strong",
            null,
            2,
            7,
            weeks),
        Set.of(),
        START,
        List.of(new Placement("quadriceps", Side.LEFT, 2, null)),
        List.of(new PadLine(scene.pad(), 4)),
        DueDay.Kind.DROP_OFF,
        null,
        "Mode P3",
        null,
        null,
        null,
        Instant.parse("2026-02-02T14:00:00Z"),
        Instant.parse("2026-02-02T14:30:00Z"),
        null,
        null,
        null,
        null,
        null,
        false);
  }
}
