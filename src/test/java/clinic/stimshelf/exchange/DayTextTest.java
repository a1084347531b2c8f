package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.location.ClosureView;
import clinic.stimshelf.location.DayHours;
import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class DayTextTest {
  private static final ZoneId NEW_YORK = ZoneId.of("America/New_York");

  /** Thursday, November 26, 2026 is Thanksgiving: the fourth Thursday of November, 5 USC 6103. */
  private static final LocalDate THANKSGIVING = LocalDate.of(2026, 11, 26);

  private final DayText demo = at("2026-11-25T15:00:00Z", true);

  @Test
  void readsDaysAndTimesAsFilesWriteThem() {
    DayText days = at("2026-11-25T15:00:00Z", false);
    assertThat(days.day("2026-03-14")).isEqualTo(LocalDate.of(2026, 3, 14));
    assertThat(days.day("3/14/2026")).isEqualTo(LocalDate.of(2026, 3, 14));
    for (String same :
        List.of(
            "2026-03-14T14:30",
            "2026-03-14 14:30:00",
            "3/14/2026 2:30 PM",
            "3/14/2026 2:30pm",
            "2026-03-14T14:30-04:00",
            "2026-03-14T18:30:00Z")) {
      assertThat(days.moment(same, null, NEW_YORK))
          .as(same)
          .isEqualTo(Instant.parse("2026-03-14T18:30:00Z"));
    }
  }

  @Test
  void refusesDaysThatAreNone() {
    for (String wrong :
        List.of("2026-02-30", "2/30/2026", "14.3.2026", "13/1/2026", "tomorrow", "0012-01-01")) {
      assertThatThrownBy(() -> demo.day(wrong)).as(wrong).isInstanceOf(DateTimeException.class);
    }
  }

  @Test
  void takesRelativeDaysInTheDemoAlone() {
    assertThat(demo.day("w+0.1")).isEqualTo(LocalDate.of(2026, 11, 23));
    assertThat(demo.day("w-1.7")).isEqualTo(LocalDate.of(2026, 11, 22));
    assertThatThrownBy(() -> at("2026-11-25T15:00:00Z", false).day("w+0.1"))
        .isInstanceOf(DateTimeException.class);
  }

  @Test
  void countsTheWeekOfTheLocationNotOfGreenwich() {
    // Sunday evening in New York is Monday in Greenwich.
    assertThat(at("2026-11-30T02:00:00Z", true).day("w+0.1")).isEqualTo(LocalDate.of(2026, 11, 23));
  }

  @Test
  void movesARelativeDayToTheNextOpenOne() {
    OpenHours hours = hours(new ClosureView(THANKSGIVING, null, null, "Thanksgiving"));
    assertThat(demo.openDay("w+0.4", hours)).isEqualTo(LocalDate.of(2026, 11, 27));
    assertThat(demo.openDay("w+0.6", hours)).isEqualTo(LocalDate.of(2026, 11, 30));
    assertThat(demo.openDay("2026-11-26", hours)).isEqualTo(THANKSGIVING);
  }

  @Test
  void movesARelativeTimeToTheNextDayThatIsOpenThen() {
    OpenHours hours =
        hours(
            new ClosureView(THANKSGIVING.minusDays(1), LocalTime.of(8, 0), LocalTime.NOON, "half"));
    assertThat(demo.moment("w+0.3T09:30", hours, NEW_YORK))
        .isEqualTo(Instant.parse("2026-11-25T14:30:00Z"));
    assertThat(demo.moment("w+0.3T14:00", hours, NEW_YORK))
        .isEqualTo(Instant.parse("2026-11-26T19:00:00Z"));
    assertThatThrownBy(() -> demo.moment("w+0.3T22:00", hours, NEW_YORK))
        .hasMessageContaining("never open");
  }

  private static OpenHours hours(ClosureView... closures) {
    Map<DayOfWeek, List<DayHours>> weekly = new EnumMap<>(DayOfWeek.class);
    for (int weekday = 1; weekday <= 5; weekday++) {
      weekly.put(
          DayOfWeek.of(weekday), List.of(new DayHours(LocalTime.of(8, 0), LocalTime.of(18, 0))));
    }
    return new OpenHours(weekly, List.of(closures));
  }

  private static DayText at(String now, boolean demo) {
    return new DayText(Instant.parse(now), NEW_YORK, demo);
  }
}
