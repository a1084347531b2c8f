package clinic.stimshelf.loans;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.calc.days.OpenDays;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The promises of a past year, played once more. Worked by hand. */
class PastPromisesTest {
  /** A Tuesday. */
  private static final LocalDate TODAY = LocalDate.of(2026, 3, 3);

  private static final LocalDate MONDAY = LocalDate.of(2026, 2, 2);

  @Test
  void aPromiseIsKeptIfAUnitWasReadyByItsDay() {
    List<Away> loans = punctual();
    loans.add(loan("now", MONDAY.minusDays(30), MONDAY.plusDays(3), MONDAY.plusDays(3)));
    loans.add(loan("now", MONDAY.minusDays(30), MONDAY.plusDays(10), MONDAY.plusDays(12)));
    // Of the last Mondays with a unit out: February 2nd, kept on the 6th; the 9th, promised for the
    // 13th and ready on the 15th.
    PastPromises.Replayed replayed = replay(loans);
    assertThat(replayed.promised())
        .filteredOn(one -> one.kind().equals("now") && !one.asked().isBefore(MONDAY))
        .extracting(
            PastPromises.Promised::asked,
            PastPromises.Promised::on,
            PastPromises.Promised::came,
            PastPromises.Promised::kept)
        .containsExactly(
            org.assertj.core.groups.Tuple.tuple(
                MONDAY, MONDAY.plusDays(4), MONDAY.plusDays(4), true),
            org.assertj.core.groups.Tuple.tuple(
                MONDAY.plusDays(7), MONDAY.plusDays(11), MONDAY.plusDays(13), false));
  }

  /** Whatever happens after a morning changes nothing that is promised on it. */
  @Test
  void nothingOfTheDaysToComeIsKnown() {
    List<Away> loans = punctual();
    loans.add(loan("now", MONDAY.minusDays(30), MONDAY.plusDays(3), MONDAY.plusDays(3)));
    List<Away> changed = new ArrayList<>(loans.subList(0, loans.size() - 1));
    changed.add(
        new Away(
            99L,
            99L,
            "now",
            MONDAY.minusDays(30),
            MONDAY.plusDays(24),
            MONDAY.plusDays(24),
            List.of(new Away.Turn(MONDAY, MONDAY.plusDays(3), true))));
    assertThat(on(replay(changed), MONDAY)).isEqualTo(on(replay(loans), MONDAY));
    assertThat(on(replay(changed), MONDAY.plusDays(7))).isNotEqualTo(MONDAY.plusDays(4));
  }

  @Test
  void nothingIsPromisedBeforeAnythingIsKnown() {
    assertThat(replay(List.of()).promised()).isEmpty();
    assertThat(
            replay(List.of(loan("now", TODAY.minusDays(40), TODAY.minusDays(5), null))).promised())
        .isEmpty();
  }

  private static LocalDate on(PastPromises.Replayed replayed, LocalDate asked) {
    return replayed.promised().stream()
        .filter(one -> one.kind().equals("now") && one.asked().equals(asked))
        .map(PastPromises.Promised::on)
        .findFirst()
        .orElse(null);
  }

  private static PastPromises.Replayed replay(List<Away> loans) {
    return PastPromises.replay(loans, TODAY, 0.9, 1, OpenDays.everyDay());
  }

  /** Twenty loans of another kind, all back on their day long ago. */
  private static List<Away> punctual() {
    List<Away> loans = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      LocalDate due = LocalDate.of(2025, 9, 1).plusDays(i);
      loans.add(loan("past", due.minusDays(30), due, due));
    }
    return loans;
  }

  private static Away loan(String kind, LocalDate out, LocalDate due, LocalDate back) {
    return new Away(1L, 1L, kind, out, due, back, List.of());
  }
}
