package clinic.stimshelf.calc.days;

import static java.time.DayOfWeek.FRIDAY;
import static java.time.DayOfWeek.MONDAY;
import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.calc.days.DueDay.Absence;
import clinic.stimshelf.calc.days.DueDay.Kind;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class DueDayTest {

  private static final OpenDays WEEKDAYS =
      OpenDays.of(EnumSet.range(MONDAY, FRIDAY), List.of(LocalDate.parse("2026-07-03")));

  /**
   * Daily from Monday 8 June for 4 weeks: last session Sunday 5 July, 4 July observed on Friday.
   */
  private static final SessionDays DAILY =
      SessionDays.of(LocalDate.parse("2026-06-08"), 4, WeekRhythm.times(7), 2);

  @Test
  void lastAppointmentBeforeTheEndShowsWhatIsLost() {
    DueDay due = DueDay.choices(DAILY, days("2026-06-08 2026-07-01 2026-07-03"), WEEKDAYS).get(0);
    assertThat(due)
        .isEqualTo(
            new DueDay(Kind.LAST_APPOINTMENT_BEFORE_END, LocalDate.parse("2026-07-01"), null, 8));
  }

  @Test
  void firstAppointmentAfterTheLastSessionWithinFiveOpenDays() {
    assertThat(first("2026-07-10")).isEqualTo(LocalDate.parse("2026-07-10"));
    assertThat(first("2026-07-14 2026-07-08")).isEqualTo(LocalDate.parse("2026-07-08"));
    assertThat(first("2026-07-13")).isNull();
    assertThat(DueDay.choices(DAILY, days("2026-07-13"), WEEKDAYS, 6).get(1).day())
        .isEqualTo("2026-07-13");
  }

  @Test
  void anAppointmentOnTheLastSessionsDayCounts() {
    OpenDays always = OpenDays.everyDay();
    assertThat(DueDay.choices(DAILY, days("2026-07-05"), always).get(1).day())
        .isEqualTo("2026-07-05");
  }

  @Test
  void dropOffIsStrictlyAfterTheLastSessionAndOpen() {
    assertThat(DueDay.choices(DAILY, List.of(), WEEKDAYS).get(2).day()).isEqualTo("2026-07-06");
    SessionDays endsThursday =
        SessionDays.of(LocalDate.parse("2026-06-05"), 4, WeekRhythm.times(7), 1);
    assertThat(endsThursday.lastDay()).isEqualTo("2026-07-02");
    assertThat(DueDay.choices(endsThursday, List.of(), WEEKDAYS).get(2).day())
        .isEqualTo("2026-07-06");
  }

  @Test
  void saysWhyAChoiceIsMissing() {
    List<DueDay> choices = DueDay.choices(DAILY, days("2026-06-08"), WEEKDAYS);
    assertThat(choices.get(0).absence()).isEqualTo(Absence.NO_APPOINTMENT_BEFORE_END);
    assertThat(choices.get(1).absence()).isEqualTo(Absence.NO_APPOINTMENT_AFTER_LAST_SESSION);
    assertThat(choices.get(2).absence()).isNull();
  }

  @Property(tries = 200)
  void everyDueDayIsOpenAndLosesWhatLiesAfterIt(
      @ForAll @IntRange(min = 1, max = 6) int weeks,
      @ForAll @IntRange(min = 1, max = 7) int times,
      @ForAll @Size(max = 12) List<@IntRange(max = 60) Integer> offsets) {
    LocalDate start = LocalDate.parse("2026-06-03");
    SessionDays sessions = SessionDays.of(start, weeks, WeekRhythm.times(times), 2);
    List<LocalDate> appointments = offsets.stream().map(start::plusDays).toList();
    for (DueDay due : DueDay.choices(sessions, appointments, WEEKDAYS)) {
      assertThat(due.day() == null).isEqualTo(due.absence() != null);
      due.dayIfAny()
          .ifPresent(
              day -> {
                assertThat(WEEKDAYS.isOpen(day)).isTrue();
                assertThat(due.sessionsLost())
                    .isEqualTo(2 * sessions.days().stream().filter(s -> s.isAfter(day)).count());
                if (due.kind() != Kind.DROP_OFF) {
                  assertThat(appointments).contains(day);
                }
              });
    }
  }

  private static LocalDate first(String appointments) {
    return DueDay.of(
            Kind.FIRST_APPOINTMENT_AFTER_LAST_SESSION,
            DAILY,
            days(appointments),
            WEEKDAYS,
            DueDay.OPEN_DAYS_AFTER)
        .day();
  }

  private static List<LocalDate> days(String spaced) {
    return Arrays.stream(spaced.split(" ")).map(LocalDate::parse).toList();
  }
}
