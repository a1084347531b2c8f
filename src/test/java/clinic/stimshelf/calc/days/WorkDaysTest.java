package clinic.stimshelf.calc.days;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.calc.BadInput;
import java.time.DayOfWeek;
import java.time.LocalDate;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

/**
 * Days counted on a calendar of March 2026 by hand: the 3rd is a Tuesday. Ten work days after a
 * Tuesday are the Tuesday two weeks later.
 */
class WorkDaysTest {
  private static final LocalDate TUESDAY = LocalDate.of(2026, 3, 3);

  @Test
  void ten_work_days_are_two_weeks() {
    assertThat(WorkDays.after(TUESDAY, 10)).isEqualTo(LocalDate.of(2026, 3, 17));
  }

  @Test
  void a_weekend_does_not_count() {
    assertThat(WorkDays.after(LocalDate.of(2026, 3, 6), 1)).isEqualTo(LocalDate.of(2026, 3, 9));
    assertThat(WorkDays.after(LocalDate.of(2026, 3, 7), 1)).isEqualTo(LocalDate.of(2026, 3, 9));
    assertThat(WorkDays.after(LocalDate.of(2026, 3, 8), 5)).isEqualTo(LocalDate.of(2026, 3, 13));
  }

  @Test
  void none_is_the_day_itself() {
    assertThat(WorkDays.after(TUESDAY, 0)).isEqualTo(TUESDAY);
    assertThatThrownBy(() -> WorkDays.after(TUESDAY, -1)).isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> WorkDays.after(TUESDAY, 1001)).isInstanceOf(BadInput.class);
  }

  @Property
  void counting_back_gives_the_number(
      @ForAll @IntRange(min = 0, max = 3000) int shift,
      @ForAll @IntRange(min = 1, max = 300) int days) {
    LocalDate from = TUESDAY.plusDays(shift);
    LocalDate to = WorkDays.after(from, days);
    assertThat(WorkDays.between(from, to)).isEqualTo(days);
    assertThat(to.getDayOfWeek()).isNotIn(DayOfWeek.SATURDAY, DayOfWeek.SUNDAY);
  }
}
