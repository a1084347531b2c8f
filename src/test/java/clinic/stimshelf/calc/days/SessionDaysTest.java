package clinic.stimshelf.calc.days;

import static java.time.DayOfWeek.FRIDAY;
import static java.time.DayOfWeek.MONDAY;
import static java.time.DayOfWeek.THURSDAY;
import static java.time.DayOfWeek.TUESDAY;
import static java.time.DayOfWeek.WEDNESDAY;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.calc.BadInput;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SessionDaysTest {

  /** RFC 5545 section 3.8.5.3: DTSTART 1997-09-02, FREQ=DAILY;COUNT=10 and FREQ=WEEKLY;COUNT=10. */
  @Test
  void dailyAndWeeklyAsInRfc5545() {
    LocalDate start = LocalDate.parse("1997-09-02");
    assertThat(SessionDays.of(start, 2, WeekRhythm.times(7), 1).days().subList(0, 10))
        .isEqualTo(start.datesUntil(LocalDate.parse("1997-09-12")).toList());
    assertThat(SessionDays.of(start, 10, WeekRhythm.on(Set.of(TUESDAY)), 1).days())
        .isEqualTo(
            dates(
                "1997-09-02 1997-09-09 1997-09-16 1997-09-23 1997-09-30"
                    + " 1997-10-07 1997-10-14 1997-10-21 1997-10-28 1997-11-04"));
  }

  /**
   * RFC 5545 section 3.8.5.3, FREQ=WEEKLY;INTERVAL=2;WKST=SU;BYDAY=TU,TH;COUNT=8: every second week
   * of a weekly program, the weeks between taken as pauses.
   */
  @Test
  void everySecondWeekAsInRfc5545() {
    LocalDate start = LocalDate.parse("1997-09-02");
    List<Span<LocalDate>> pauses =
        List.of(
            Span.of(LocalDate.parse("1997-09-07"), LocalDate.parse("1997-09-14")),
            Span.of(LocalDate.parse("1997-09-21"), LocalDate.parse("1997-09-28")),
            Span.of(LocalDate.parse("1997-10-05"), LocalDate.parse("1997-10-12")));
    assertThat(SessionDays.of(start, 4, WeekRhythm.on(Set.of(TUESDAY, THURSDAY)), 1, pauses).days())
        .isEqualTo(
            dates(
                "1997-09-02 1997-09-04 1997-09-16 1997-09-18"
                    + " 1997-09-30 1997-10-02 1997-10-14 1997-10-16"));
  }

  @Test
  void unnamedDaysSpreadOverTheWeek() {
    assertThat(WeekRhythm.times(1).offsets()).containsExactly(0);
    assertThat(WeekRhythm.times(2).offsets()).containsExactly(0, 3);
    assertThat(WeekRhythm.times(3).offsets()).containsExactly(0, 2, 4);
    assertThat(WeekRhythm.times(5).offsets()).containsExactly(0, 1, 2, 4, 5);
    assertThat(WeekRhythm.times(7).offsets()).containsExactly(0, 1, 2, 3, 4, 5, 6);
  }

  /** Session counts printed in Gremeaux 2008, JOSPT 2003;33:719 and Peng 2021 Table 1. */
  @ParameterizedTest
  @CsvSource({"5,5,25", "2,4,8", "3,4,12", "2,6,12"})
  void countsAsPublished(int daysPerWeek, int weeks, int sessions) {
    LocalDate start = LocalDate.parse("2026-03-04");
    assertThat(SessionDays.of(start, weeks, WeekRhythm.times(daysPerWeek), 1).count())
        .isEqualTo(sessions);
  }

  @Test
  void aWeekRunsFromTheStartDayNotFromMonday() {
    SessionDays sessions =
        SessionDays.of(
            LocalDate.parse("2026-03-05"), 1, WeekRhythm.on(Set.of(MONDAY, WEDNESDAY, FRIDAY)), 2);
    assertThat(sessions.days()).isEqualTo(dates("2026-03-06 2026-03-09 2026-03-11"));
    assertThat(sessions.endExclusive()).isEqualTo("2026-03-12");
    assertThat(sessions.count()).isEqualTo(6);
    assertThat(sessions.after(LocalDate.parse("2026-03-09"))).isEqualTo(2);
    assertThat(sessions.through(LocalDate.parse("2026-03-08"))).isEqualTo(2);
    assertThat(sessions.on(LocalDate.parse("2026-03-09"))).isEqualTo(2);
    assertThat(sessions.on(LocalDate.parse("2026-03-10"))).isZero();
  }

  @Test
  void namedWeekdaysKeepTheirWeekdayAfterAPause() {
    SessionDays sessions =
        SessionDays.of(
            LocalDate.parse("2026-03-02"),
            2,
            WeekRhythm.on(Set.of(MONDAY, THURSDAY)),
            1,
            List.of(Span.of(LocalDate.parse("2026-03-04"), LocalDate.parse("2026-03-07"))));
    assertThat(sessions.days()).isEqualTo(dates("2026-03-02 2026-03-09 2026-03-12 2026-03-16"));
    assertThat(sessions.endExclusive()).isEqualTo("2026-03-19");
  }

  @Test
  void unnamedDaysShiftByThePause() {
    SessionDays sessions =
        SessionDays.of(
            LocalDate.parse("2026-03-02"),
            2,
            WeekRhythm.times(2),
            1,
            List.of(Span.of(LocalDate.parse("2026-03-04"), LocalDate.parse("2026-03-07"))));
    assertThat(sessions.days()).isEqualTo(dates("2026-03-02 2026-03-08 2026-03-12 2026-03-15"));
  }

  @Test
  void refusesImpossiblePrograms() {
    LocalDate start = LocalDate.parse("2026-03-02");
    assertThatThrownBy(() -> SessionDays.of(start, 0, WeekRhythm.times(2), 1))
        .isInstanceOf(BadInput.class);
    assertThatThrownBy(() -> WeekRhythm.on(Set.of())).hasMessageContaining("No weekday");
    assertThatThrownBy(
            () ->
                SessionDays.of(
                    start,
                    1,
                    WeekRhythm.times(2),
                    1,
                    List.of(Span.of(start, LocalDate.parse("2126-01-01")))))
        .hasMessageContaining("10 years");
  }

  @Property(tries = 200)
  void aPauseMovesSessionsButLosesNone(
      @ForAll @Size(max = 7) Set<DayOfWeek> named,
      @ForAll @IntRange(min = 1, max = 7) int times,
      @ForAll @IntRange(min = 1, max = 12) int weeks,
      @ForAll @IntRange(max = 80) int from,
      @ForAll @IntRange(min = 1, max = 40) int length) {
    LocalDate start = LocalDate.parse("2026-01-07");
    WeekRhythm rhythm =
        named.isEmpty() ? WeekRhythm.times(times) : WeekRhythm.on(EnumSet.copyOf(named));
    SessionDays plain = SessionDays.of(start, weeks, rhythm, 1);
    Span<LocalDate> pause = Span.of(start.plusDays(from), start.plusDays(from + length));
    SessionDays paused = SessionDays.of(start, weeks, rhythm, 1, List.of(pause));

    assertThat(paused.count()).isEqualTo(plain.count()).isEqualTo(rhythm.daysPerWeek() * weeks);
    assertThat(paused.days()).isSorted().doesNotHaveDuplicates().noneMatch(pause::contains);
    assertThat(plain.lastDay()).isBefore(plain.endExclusive());
    assertThat(ChronoUnit.DAYS.between(start, plain.endExclusive())).isEqualTo(7L * weeks);
    if (named.isEmpty()) {
      assertThat(paused.days())
          .isEqualTo(
              plain.days().stream()
                  .map(day -> day.isBefore(pause.start()) ? day : day.plusDays(length))
                  .toList());
    } else {
      assertThat(paused.days()).allMatch(day -> named.contains(day.getDayOfWeek()));
    }
  }

  private static List<LocalDate> dates(String spaced) {
    return Arrays.stream(spaced.split(" ")).map(LocalDate::parse).toList();
  }
}
