package clinic.stimshelf.program;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import clinic.stimshelf.calc.days.DueDay.Kind;
import clinic.stimshelf.calc.days.OpenDays;
import clinic.stimshelf.calc.days.Span;
import clinic.stimshelf.people.Side;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What follows from a program, without a database. */
class OutlookTest {
  private static final LocalDate START = LocalDate.parse("2026-06-08");
  private static final OpenDays WEEKDAYS =
      OpenDays.of(
          EnumSet.range(DayOfWeek.MONDAY, DayOfWeek.FRIDAY),
          List.of(LocalDate.parse("2026-07-03")));

  /** Published: 8 and 12 sessions (J Orthop Sports Phys Ther 2003;33:719); 25 (Gremeaux 2008). */
  @Test
  void sessionsAreThosePrinted() {
    assertThat(outlook(course(1, 2, 4), List.of()).days().count()).isEqualTo(8);
    assertThat(outlook(course(1, 3, 4), List.of()).days().count()).isEqualTo(12);
    assertThat(outlook(course(1, 5, 5), List.of()).days().count()).isEqualTo(25);
    assertThat(outlook(course(1, 2, 6), List.of()).days().count()).isEqualTo(12);
  }

  @Test
  void sessionAndDutyFollowFromOnAndOff() {
    Outlook.Session session = outlook(course(2, 7, 6), List.of()).session();
    assertThat(session.seconds()).isEqualByComparingTo("900");
    assertThat(session.contractions()).isEqualTo(15);
    assertThat(session.dutyPercent()).isEqualTo(25.0);
    Content twenty =
        course(3, 5, 12)
            .withDose(
                course(3, 5, 12)
                    .dose()
                    .with(DoseField.CONTRACTIONS, null)
                    .with(DoseField.MINUTES, new BigDecimal("20"))
                    .with(DoseField.ON_SECONDS, new BigDecimal("5"))
                    .with(DoseField.OFF_SECONDS, new BigDecimal("10")));
    assertThat(outlook(twenty, List.of()).session().contractions()).isEqualTo(80);
  }

  /** Last session on Sunday 5 July 2026; Friday the 3rd is the observed holiday. */
  @Test
  void threeDueDaysAcrossAHoliday() {
    List<LocalDate> appointments = days("2026-07-01", "2026-07-03", "2026-07-08");
    Outlook outlook = outlook(course(2, 7, 4), appointments);
    assertThat(outlook.due(Kind.LAST_APPOINTMENT_BEFORE_END).day()).isEqualTo("2026-07-01");
    assertThat(outlook.due(Kind.LAST_APPOINTMENT_BEFORE_END).sessionsLost()).isEqualTo(8);
    assertThat(outlook.due(Kind.FIRST_APPOINTMENT_AFTER_LAST_SESSION).day())
        .isEqualTo("2026-07-08");
    assertThat(outlook.due(Kind.DROP_OFF).day()).isEqualTo("2026-07-06");
  }

  @Test
  void aChoiceThatIsGoneFallsBackToTheDropOffDay() {
    Outlook outlook = outlook(course(2, 7, 4), List.of());
    assertThat(outlook.due(Kind.LAST_APPOINTMENT_BEFORE_END).day()).isNull();
    assertThat(outlook.dueOrDropOff(Kind.LAST_APPOINTMENT_BEFORE_END).day())
        .isEqualTo("2026-07-06");
  }

  /** 3 uses a set, 2 sessions a day: the second set is opened for the second session of day 2. */
  @Test
  void padsChangeInTheMiddleOfADay() {
    Outlook outlook =
        Outlook.of(
            course(2, 7, 1), around(START, List.of(), Map.of("P", fact("P", 4, 3, 30)), List.of()));
    assertThat(outlook.pads().get(0).plan().openings().get(1).session()).isEqualTo(2);
    assertThat(outlook.padChanges()).startsWith(START.plusDays(1));
  }

  @Test
  void theNextAppointmentBoundsThePacksThatLeave() {
    Map<String, PadFact> one = Map.of("P", fact("P", 4, 14, 30));
    Content content = course(2, 7, 6);
    Outlook booked = Outlook.of(content, around(START, days("2026-06-22"), one, List.of()));
    assertThat(booked.nextAppointment()).isEqualTo("2026-06-22");
    assertThat(booked.packsNow()).isEqualTo(4);
    assertThat(booked.packsLater()).isEqualTo(2);
    Outlook free = Outlook.of(content, around(START, List.of(), one, List.of()));
    assertThat(free.packsNow()).as("first set and one spare, never the course").isEqualTo(2);
    assertThat(free.packsNow() + free.packsLater()).isEqualTo(6);
    Outlook two =
        Outlook.of(
            content, new Outlook.Surroundings(START, WEEKDAYS, List.of(), 5, 2, List.of(), one));
    assertThat(two.packsNow()).as("two spare sets as the location set").isEqualTo(3);
  }

  @Test
  void anAppointmentOnTheStartDayHandsOutButIsNotTheNext() {
    Outlook outlook = outlook(course(2, 7, 6), days("2026-06-08", "2026-06-15"));
    assertThat(outlook.nextAppointment()).isEqualTo("2026-06-15");
  }

  @Test
  void everyPadLineHasItsOwnLife() {
    Content content =
        new Content(
            null,
            course(2, 7, 4).dose(),
            Set.of(),
            START,
            List.of(new Placement("quadriceps", Side.LEFT, 2, null)),
            List.of(new PadLine("P", 2), new PadLine("Q", 2)),
            Kind.DROP_OFF,
            "M",
            null,
            null);
    Outlook outlook =
        Outlook.of(
            content,
            around(
                START,
                List.of(),
                Map.of("P", fact("P", 2, 28, 60), "Q", fact("Q", 2, 100, 10)),
                List.of()));
    assertThat(outlook.pads().get(0).plan().changes()).containsExactly(START.plusDays(14));
    assertThat(outlook.pads().get(1).plan().changes())
        .containsExactly(START.plusDays(10), START.plusDays(20));
    assertThat(outlook.padChanges())
        .containsExactly(START.plusDays(10), START.plusDays(14), START.plusDays(20));
  }

  @Test
  void aPauseShiftsEverythingThatFollows() {
    Outlook outlook =
        Outlook.of(
            course(2, 7, 4),
            around(
                START,
                List.of(),
                Map.of("P", fact("P", 4, 20, 30)),
                List.of(Span.of(START.plusDays(7), START.plusDays(14)))));
    assertThat(outlook.days().lastDay()).isEqualTo("2026-07-12");
    assertThat(outlook.due(Kind.DROP_OFF).day()).isEqualTo("2026-07-13");
    assertThat(outlook.padChanges()).startsWith(START.plusDays(17));
  }

  /** 80 mA, 300 µs, 50 Hz on a round pad of 2.5 cm: 2.82 mA/cm², over the 2 of IEC 60601-2-10. */
  @Test
  void currentDensityIsShownOnlyWhereMilliamperesAreKnown() {
    Content content = course(2, 7, 4);
    Map<String, PadFact> small =
        Map.of("P", new PadFact("P", "P", 4, 20, 30, new BigDecimal("4.9087")));
    assertThat(Outlook.of(content, around(START, List.of(), small, List.of())).density()).isNull();
    Content limited =
        content
            .with(DoseField.LIMIT_MA, new BigDecimal("80"))
            .with(DoseField.PULSE_WIDTH_US, new BigDecimal("300"));
    Outlook outlook = Outlook.of(limited, around(START, List.of(), small, List.of()));
    assertThat(outlook.density().rmsMilliamperes()).isEqualTo(13.86, within(0.005));
    assertThat(outlook.density().milliamperesPerCm2()).isEqualTo(2.82, within(0.005));
    assertThat(outlook.density().callsForCare()).isTrue();
    Content bursts = limited.with(DoseField.FREQUENCY_KIND, FrequencyKind.BURSTS);
    assertThat(Outlook.of(bursts, around(START, List.of(), small, List.of())).density()).isNull();
  }

  @Test
  void blanksLeaveOnlyWhatHangsOnThemOpen() {
    Content blank =
        new Content(
            null,
            DoseValues.of(
                Map.of(
                    DoseField.ON_SECONDS,
                    BigDecimal.TEN,
                    DoseField.OFF_SECONDS,
                    new BigDecimal("50"))),
            Set.of(),
            null,
            List.of(),
            List.of(),
            null,
            null,
            null,
            null);
    Outlook outlook = outlook(blank, List.of());
    assertThat(outlook.session().dutyPercent()).isEqualTo(16.7, within(0.05));
    assertThat(outlook.days()).isNull();
    assertThat(outlook.due()).isEmpty();
    assertThat(outlook.pads()).isEmpty();
  }

  @Test
  void rampsThatDoNotFitAreSaid() {
    Content content = course(2, 7, 4).with(DoseField.RAMP_UP_SECONDS, new BigDecimal("20"));
    assertThat(outlook(content.with(DoseField.RAMP_INSIDE_ON, true), List.of()).faults())
        .hasSize(1);
  }

  private static Content course(int aDay, int days, int weeks) {
    Map<DoseField, Object> dose = new HashMap<>();
    dose.put(DoseField.FREQUENCY_HZ, new BigDecimal("50"));
    dose.put(DoseField.FREQUENCY_KIND, FrequencyKind.PULSES);
    dose.put(DoseField.PULSE_WIDTH_US, new BigDecimal("250"));
    dose.put(DoseField.ON_SECONDS, new BigDecimal("15"));
    dose.put(DoseField.OFF_SECONDS, new BigDecimal("45"));
    dose.put(DoseField.CONTRACTIONS, 15);
    dose.put(DoseField.SESSIONS_PER_DAY, aDay);
    dose.put(DoseField.DAYS_PER_WEEK, days);
    dose.put(DoseField.WEEKS, weeks);
    return new Content(
        null,
        DoseValues.of(dose),
        Set.of(),
        START,
        List.of(new Placement("quadriceps", Side.LEFT, 2, null)),
        List.of(new PadLine("P", 4)),
        Kind.DROP_OFF,
        "M",
        null,
        null);
  }

  private static Outlook outlook(Content content, List<LocalDate> appointments) {
    return Outlook.of(
        content, around(START, appointments, Map.of("P", fact("P", 4, 20, 30)), List.of()));
  }

  private static Outlook.Surroundings around(
      LocalDate today,
      List<LocalDate> appointments,
      Map<String, PadFact> pads,
      List<Span<LocalDate>> pauses) {
    return new Outlook.Surroundings(today, WEEKDAYS, appointments, 5, 1, pauses, pads);
  }

  private static PadFact fact(String code, int perPack, int uses, int openDays) {
    return new PadFact(code, code, perPack, uses, openDays, new BigDecimal("50"));
  }

  private static List<LocalDate> days(String... days) {
    return List.of(days).stream().map(LocalDate::parse).toList();
  }
}
