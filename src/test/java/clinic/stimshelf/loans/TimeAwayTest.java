package clinic.stimshelf.loans;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.pool.Returning;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** How late units come home is learnt from the loans there were. Worked by hand. */
class TimeAwayTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 3, 3);
  private static final LocalDate DUE = TODAY.plusDays(4);

  @Test
  void aUnitIsReadyATurnaroundAfterItsUsualReturn() {
    // 8 of 10 came back on the due day, 2 three days later.
    Returning home = TimeAway.of(loans(8, 0, 2, 3), TODAY).home("K", DUE, false, 1);
    assertThat(home.readyBy(4)).isZero();
    assertThat(home.readyBy(5)).isCloseTo(0.8, within(1e-12));
    assertThat(home.readyBy(7)).isCloseTo(0.8, within(1e-12));
    assertThat(home.readyBy(8)).isCloseTo(1, within(1e-12));
  }

  @Test
  void aUnitThatIsLateCountsAsTheLateOnesDid() {
    TimeAway times = TimeAway.of(loans(8, 0, 2, 3), TODAY);
    // Yesterday it was one day late, so it is one of the two that came on the third day.
    Returning late = times.home("K", TODAY.minusDays(2), false, 0);
    assertThat(late.readyBy(0)).isZero();
    assertThat(late.readyBy(1)).isCloseTo(1, within(1e-12));
  }

  @Test
  void aUnitLaterThanAnyThatCameBackIsNotCountedOn() {
    Returning lost = TimeAway.of(loans(8, 0, 2, 3), TODAY).home("K", DUE.minusDays(60), false, 0);
    assertThat(lost.readyBy(180)).isZero();
  }

  @Test
  void loansThatStillRunCountAsFarAsTheyHaveCome() {
    List<Away> loans = loans(8, 0, 2, 3);
    // Ten more are two days late and still out: no return of theirs counts as on time.
    for (int i = 0; i < 10; i++) {
      loans.add(loan("K", TODAY.minusDays(2), null));
    }
    Returning home = TimeAway.of(loans, TODAY).home("K", DUE, false, 0);
    assertThat(home.readyBy(4)).isCloseTo(8.0 / 20, within(1e-12));
  }

  @Test
  void aKindWithFewReturnsBorrowsFromAll() {
    List<Away> loans = loans(10, 0, 0, 0);
    loans.add(loan("NEW", TODAY.minusDays(20), TODAY.minusDays(15)));
    TimeAway times = TimeAway.of(loans, TODAY);
    assertThat(times.home("NEW", DUE, false, 0).readyBy(4)).isCloseTo(10.0 / 11, within(1e-12));
    assertThat(times.home("K", DUE, false, 0).readyBy(4)).isCloseTo(1, within(1e-12));
  }

  @Test
  void withoutHistoryNotEveryUnitIsExpectedOnTime() {
    Returning home = TimeAway.of(List.of(), TODAY).home("K", DUE, false, 0);
    assertThat(home.readyBy(4)).isCloseTo(0.7, within(1e-12));
    assertThat(home.readyBy(7)).isCloseTo(0.9, within(1e-12));
    assertThat(home.readyBy(18)).isCloseTo(1, within(1e-12));
  }

  private static List<Away> loans(int some, int late, int others, int later) {
    List<Away> loans = new ArrayList<>();
    for (int i = 0; i < some + others; i++) {
      LocalDate due = TODAY.minusDays(30 + i);
      loans.add(loan("K", due, due.plusDays(i < some ? late : later)));
    }
    return loans;
  }

  private static Away loan(String kind, LocalDate due, LocalDate back) {
    return new Away(1L, 1L, kind, due.minusDays(40), due, back, List.of());
  }
}
