package clinic.stimshelf.calc.days;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDateTime;
import java.time.LocalTime;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

/** Times move out of the quiet hours, and no further than needed. */
class QuietHoursTest {
  private static final LocalDateTime DAY = LocalDateTime.parse("2026-03-08T00:00");

  @Test
  void an_evening_ends_before_eight_and_a_morning_begins_at_eight() {
    QuietHours night = new QuietHours(LocalTime.of(20, 0), LocalTime.of(8, 0));

    assertThat(night.earlier(DAY.withHour(7))).isEqualTo("2026-03-07T19:59");
    assertThat(night.earlier(DAY.withHour(22))).isEqualTo("2026-03-08T19:59");
    assertThat(night.later(DAY.withHour(7))).isEqualTo("2026-03-08T08:00");
    assertThat(night.later(DAY.withHour(22))).isEqualTo("2026-03-09T08:00");
    assertThat(night.earlier(DAY.withHour(9))).isEqualTo("2026-03-08T09:00");
    assertThat(night.quiet(LocalTime.of(8, 0))).isFalse();
    assertThat(night.quiet(LocalTime.of(20, 0))).isTrue();
  }

  @Property
  void what_comes_out_is_allowed_on_the_right_side_and_not_a_day_away(
      @ForAll @IntRange(max = 1439) int from,
      @ForAll @IntRange(max = 1439) int until,
      @ForAll @IntRange(max = 1439) int at) {
    QuietHours quiet = new QuietHours(time(from), time(until));
    LocalDateTime wished = DAY.plusMinutes(at);
    LocalDateTime earlier = quiet.earlier(wished);
    LocalDateTime later = quiet.later(wished);

    assertThat(quiet.quiet(earlier.toLocalTime())).isFalse();
    assertThat(quiet.quiet(later.toLocalTime())).isFalse();
    assertThat(earlier).isBetween(wished.minusDays(1), wished);
    assertThat(later).isBetween(wished, wished.plusDays(1));
    assertThat(earlier.equals(wished)).isEqualTo(!quiet.quiet(wished.toLocalTime()));
    for (LocalDateTime between = earlier.plusMinutes(1);
        between.isBefore(wished);
        between = between.plusMinutes(1)) {
      assertThat(quiet.quiet(between.toLocalTime())).as("%s", between).isTrue();
    }
  }

  private static LocalTime time(int minutes) {
    return LocalTime.ofSecondOfDay(minutes * 60L);
  }
}
