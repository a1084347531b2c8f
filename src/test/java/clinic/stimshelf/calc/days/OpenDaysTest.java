package clinic.stimshelf.calc.days;

import static java.time.DayOfWeek.FRIDAY;
import static java.time.DayOfWeek.MONDAY;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Checks;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class OpenDaysTest {

  private static final OpenDays FEDERAL =
      OpenDays.of(
          EnumSet.range(MONDAY, FRIDAY),
          Checks.rows("10_us_federal_holidays.csv").stream()
              .map(row -> LocalDate.parse(row.text("observed_date_mon_fri_schedule")))
              .toList());

  static Stream<Checks.Row> businessDays() {
    return Checks.rows("10_business_days.csv").stream();
  }

  /** 5 U.S.C. 6103 holidays as observed, Monday to Friday. */
  @ParameterizedTest
  @MethodSource("businessDays")
  void countsAndAddsBusinessDays(Checks.Row row) {
    LocalDate start = LocalDate.parse(row.text("start"));
    if (row.text("op").equals("count_half_open")) {
      assertThat(FEDERAL.openDaysBetween(start, LocalDate.parse(row.text("arg"))))
          .isEqualTo(row.whole("result"));
    } else {
      assertThat(FEDERAL.plusOpenDays(start, row.whole("arg"))).isEqualTo(row.text("result"));
    }
  }

  @Test
  void searchesOverHolidaysAndWeekends() {
    LocalDate julyThird = LocalDate.parse("2026-07-03");
    assertThat(FEDERAL.isOpen(julyThird)).isFalse();
    assertThat(FEDERAL.firstOpenOnOrAfter(julyThird)).isEqualTo("2026-07-06");
    assertThat(FEDERAL.lastOpenOnOrBefore(julyThird)).isEqualTo("2026-07-02");
    assertThat(FEDERAL.firstOpenAfter(LocalDate.parse("2026-07-06"))).isEqualTo("2026-07-07");
    assertThat(FEDERAL.plusOpenDays(julyThird, 0)).isEqualTo(julyThird);
    assertThat(FEDERAL.openDaysBetween(julyThird, LocalDate.parse("2026-06-01"))).isZero();
  }

  @Test
  void saysSoWhenNoDayIsOpen() {
    OpenDays never = OpenDays.of(Set.of(), List.of());
    assertThatThrownBy(() -> never.firstOpenAfter(LocalDate.parse("2026-01-01")))
        .isInstanceOf(BadInput.class)
        .hasMessageContaining("366 days from 2026-01-02");
    assertThatThrownBy(() -> never.lastOpenOnOrBefore(LocalDate.parse("2026-01-01")))
        .hasMessageContaining("enter opening hours");
  }

  @Property(tries = 200)
  void countingAgreesWithWalking(
      @ForAll @Size(min = 1) Set<DayOfWeek> weekdays,
      @ForAll @Size(max = 20) Set<@IntRange(max = 90) Integer> closedOffsets,
      @ForAll @IntRange(max = 90) int length) {
    LocalDate start = LocalDate.parse("2026-02-20");
    OpenDays open = OpenDays.of(weekdays, closedOffsets.stream().map(start::plusDays).toList());
    LocalDate end = start.plusDays(length);
    long walked = start.datesUntil(end).filter(open::isOpen).count();
    assertThat(open.openDaysBetween(start, end)).isEqualTo(walked);
    if (walked > 0) {
      LocalDate last = open.plusOpenDays(start.minusDays(1), (int) walked);
      assertThat(last).isEqualTo(open.lastOpenOnOrBefore(end.minusDays(1)));
      assertThat(open.plusOpenDays(end, (int) -walked)).isEqualTo(open.firstOpenOnOrAfter(start));
    }
  }
}
