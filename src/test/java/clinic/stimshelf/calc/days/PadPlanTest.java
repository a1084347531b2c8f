package clinic.stimshelf.calc.days;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.calc.days.PadPlan.Due;
import clinic.stimshelf.calc.days.PadPlan.Opening;
import clinic.stimshelf.calc.days.PadPlan.Why;
import clinic.stimshelf.calc.dose.PadUse;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class PadPlanTest {

  private static final LocalDate START = LocalDate.parse("2026-03-02");

  @Test
  void aSetIsReplacedAtItsPlannedUses() {
    PadPlan plan = PadPlan.of(daily(3, 1), new PadLine(2, 4, 10, 30));
    assertThat(plan.openings())
        .containsExactly(
            new Opening(START, 1, 1, Why.FIRST),
            new Opening(START.plusDays(10), 1, 0, Why.WORN),
            new Opening(START.plusDays(20), 1, 1, Why.WORN));
    assertThat(plan.changes()).containsExactly(START.plusDays(10), START.plusDays(20));
    assertThat(plan.packs()).isEqualTo(2);
  }

  @Test
  void aSetIsReplacedInTheMiddleOfADay() {
    PadPlan plan = PadPlan.of(daily(1, 2), new PadLine(2, 2, 3, 30));
    assertThat(plan.openings().get(1)).isEqualTo(new Opening(START.plusDays(1), 2, 1, Why.WORN));
  }

  @Test
  void aSetIsReplacedWhenItsDaysAreOver() {
    PadPlan plan = PadPlan.of(daily(3, 1), new PadLine(2, 2, 100, 10));
    assertThat(plan.changes()).containsExactly(START.plusDays(10), START.plusDays(20));
    assertThat(plan.openings().get(1).why()).isEqualTo(Why.TOO_OLD);
  }

  @Test
  void theSecondSetOfAPackMustBeOpenedWhileThePouchIsFresh() {
    PadPlan inTime = PadPlan.of(daily(4, 1), new PadLine(2, 4, 13, 14));
    assertThat(inTime.openings()).extracting(Opening::packsOpened).containsExactly(1, 0, 1);
    PadPlan late = PadPlan.of(daily(4, 1), new PadLine(2, 4, 14, 14));
    assertThat(late.openings()).extracting(Opening::packsOpened).containsExactly(1, 1);
  }

  @Test
  void aSetMayTakeSeveralPacks() {
    PadPlan plan = PadPlan.of(daily(2, 1), new PadLine(4, 2, 7, 30));
    assertThat(plan.openings()).extracting(Opening::packsOpened).containsExactly(2, 2);
  }

  @Test
  void packsNowReachTheNextAppointmentPlusOneSpareSet() {
    PadPlan plan = PadPlan.of(daily(6, 1), new PadLine(2, 2, 7, 30));
    assertThat(plan.packs()).isEqualTo(6);
    assertThat(plan.packsNow(START.plusDays(13))).isEqualTo(3);
    assertThat(plan.packsNow(START.plusDays(14))).isEqualTo(4);
    assertThat(plan.packsLater(START.plusDays(14)))
        .containsExactly(new Due(START.plusDays(28), 1), new Due(START.plusDays(35), 1));
    assertThat(plan.packsNow(null)).isEqualTo(6);
    assertThat(plan.packsNow(START.plusDays(99))).isEqualTo(6);
    assertThat(plan.packsLater(null)).isEmpty();
  }

  @Test
  void severalOpeningsOnOneDayAreDueTogether() {
    PadPlan plan = PadPlan.of(daily(1, 2), new PadLine(2, 2, 1, 30));
    assertThat(plan.packsLater(START)).first().isEqualTo(new Due(START.plusDays(1), 1));
    assertThat(plan.packsLater(START)).last().isEqualTo(new Due(START.plusDays(6), 2));
  }

  @Property(tries = 300)
  void everySessionHasAFreshSetAndNothingIsCountedTwice(
      @ForAll @IntRange(min = 1, max = 6) int weeks,
      @ForAll @IntRange(min = 1, max = 7) int times,
      @ForAll @IntRange(min = 1, max = 3) int aDay,
      @ForAll @IntRange(min = 1, max = 4) int perSession,
      @ForAll @IntRange(min = 1, max = 9) int perPack,
      @ForAll @IntRange(min = 1, max = 30) int uses,
      @ForAll @IntRange(min = 1, max = 40) int openDays,
      @ForAll @IntRange(max = 50) int appointment) {
    SessionDays sessions = SessionDays.of(START, weeks, WeekRhythm.times(times), aDay);
    PadPlan plan = PadPlan.of(sessions, new PadLine(perSession, perPack, uses, openDays));
    PadPlan ageless =
        PadPlan.of(sessions, new PadLine(perSession, perPack, uses, PadLine.NEVER_AGES));
    PadUse dose = new PadUse(perSession, uses, perPack);
    assertThat(ageless.sets()).isEqualTo(dose.padSets(sessions.count()).intValueExact());
    assertThat(ageless.packs()).isEqualTo(dose.packs(sessions.count()).intValueExact());
    assertThat(plan.sets()).isGreaterThanOrEqualTo(ageless.sets());
    assertThat(plan.packs() * perPack).isGreaterThanOrEqualTo(plan.sets() * perSession);
    for (int i = 1; i < plan.sets(); i++) {
      Opening opening = plan.openings().get(i);
      LocalDate before = plan.openings().get(i - 1).day();
      boolean tooOld = ChronoUnit.DAYS.between(before, opening.day()) >= openDays;
      assertThat(opening.why() == Why.WORN || tooOld).isTrue();
    }
    LocalDate next = START.plusDays(appointment);
    int later = plan.packsLater(next).stream().mapToInt(Due::packs).sum();
    assertThat(plan.packsNow(next) + later).isEqualTo(plan.packs());
    assertThat(plan.packsLater(next)).allMatch(due -> due.day().isAfter(next));
    assertThat(List.copyOf(plan.changes())).isSorted();
  }

  private static SessionDays daily(int weeks, int aDay) {
    return SessionDays.of(START, weeks, WeekRhythm.times(7), aDay);
  }
}
