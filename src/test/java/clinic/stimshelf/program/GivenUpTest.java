package clinic.stimshelf.program;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class GivenUpTest {
  private static final LocalDate BEGAN = LocalDate.parse("2026-03-02");
  private static final GivenUp RULE = new GivenUp(14, 0.25);

  @Test
  void silenceForAllTheDaysIsAsked() {
    assertThat(RULE.why(List.of(), BEGAN, null, BEGAN.plusDays(13))).isNull();
    assertThat(RULE.why(List.of(), BEGAN, null, BEGAN.plusDays(14)).what())
        .contains("No session was ever told of")
        .contains("does not say missed");
  }

  @Test
  void aSessionToldOfOrAVisitIsASignOfLife() {
    LocalDate today = BEGAN.plusDays(20);
    List<Adherence.Known> missed = days("2026-03-12 not");
    assertThat(RULE.why(missed, BEGAN, null, today)).as("missed is told of").isNull();
    assertThat(RULE.why(List.of(), BEGAN, BEGAN.plusDays(9), today)).isNull();
    assertThat(RULE.why(missed, BEGAN, null, today.plusDays(10)).when()).isEqualTo("20 days");
  }

  @Test
  void nearlyAllKnownSessionsMissedIsAskedAsWellButFewKnownOnesAreNot() {
    LocalDate today = BEGAN.plusDays(15);
    List<Adherence.Known> six =
        days("2026-03-05 done", "2026-03-06 not", "2026-03-07 not", "2026-03-08 not");
    assertThat(RULE.why(six, BEGAN, null, today)).as("4 known").isNull();
    six.addAll(days("2026-03-09 not", "2026-03-10 not"));
    assertThat(RULE.why(six, BEGAN, null, today).when()).isEqualTo("1 of 6");
    six.addAll(days("2026-03-11 done"));
    assertThat(RULE.why(six, BEGAN, null, today)).as("2 of 7 is above a quarter").isNull();
    assertThat(RULE.why(six.subList(0, 6), BEGAN.plusDays(8), null, today))
        .as("not before the days have passed")
        .isNull();
  }

  private static List<Adherence.Known> days(String... words) {
    List<Adherence.Known> known = new ArrayList<>();
    for (String one : words) {
      String[] parts = one.split(" ", 2);
      known.add(new Adherence.Known(LocalDate.parse(parts[0]), 1, Outcome.of(parts[1])));
    }
    return known;
  }
}
