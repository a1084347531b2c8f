package clinic.stimshelf.calc.outcome;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.days.Span;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Our own arithmetic: a share of days, no outside source. */
class ReachedTest {
  private static final LocalDate MONDAY = LocalDate.parse("2026-03-02");

  /** Forty days, so that a quarter is ten of them. */
  private static final Span<LocalDate> COURSE = Span.of(MONDAY, MONDAY.plusDays(40));

  @ParameterizedTest
  @CsvSource({
    "1, 3, 1",
    "10, 25, 1",
    "11, 28, 2",
    "20, 50, 2",
    "30, 75, 3",
    "31, 78, 4",
    "40, 100, 4"
  })
  void aQuarterIncludesItsLastDay(int day, int percent, int quarter) {
    Reached reached = Reached.of(COURSE, MONDAY.plusDays(day - 1));
    assertThat(reached.percent()).isEqualTo(percent);
    assertThat(reached.quarter()).isEqualTo(quarter);
  }

  @Test
  void aSessionOutsideTheCourseCountsAsItsNearerEnd() {
    assertThat(Reached.of(COURSE, MONDAY.minusDays(5)).percent()).isZero();
    assertThat(Reached.of(COURSE, MONDAY.minusDays(5)).quarter()).isEqualTo(1);
    assertThat(Reached.of(COURSE, MONDAY.plusDays(90)).percent()).isEqualTo(100);
    assertThatThrownBy(() -> new Reached(101)).isInstanceOf(BadInput.class);
  }
}
