package clinic.stimshelf.calc.days;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * The dated sessions of a home program.
 *
 * <p>A program week is 7 days from the start day, so the number of sessions is a day x days x weeks
 * whatever weekday the program starts on. Sessions fall on closed days of the location too.
 *
 * <p>A pause stops the program's count of days: no session falls into it and everything after it
 * shifts. Named weekdays stay the same weekdays, so the program then ends on the day that completes
 * its count; days without names shift by the length of the pause.
 */
public final class SessionDays {

  private static final int MOST_WEEKS = 520;
  private static final int MOST_A_DAY = 100;

  private final LocalDate start;
  private final List<LocalDate> days;
  private final LocalDate endExclusive;
  private final int sessionsPerDay;

  private SessionDays(
      LocalDate start, List<LocalDate> days, LocalDate endExclusive, int sessionsPerDay) {
    this.start = start;
    this.days = Collections.unmodifiableList(days);
    this.endExclusive = endExclusive;
    this.sessionsPerDay = sessionsPerDay;
  }

  /** As {@link #of(LocalDate, int, WeekRhythm, int, List)}, without a pause. */
  public static SessionDays of(LocalDate start, int weeks, WeekRhythm rhythm, int sessionsPerDay) {
    return of(start, weeks, rhythm, sessionsPerDay, List.of());
  }

  /**
   * @param start first day of the program; with named weekdays the first session may be later
   * @param weeks 1 to 520
   * @param rhythm the days of each week
   * @param sessionsPerDay 1 to 100
   * @param pauses half-open spans of days without sessions; those that overlap count once
   * @throws BadInput if an argument is out of range or the pauses add up to more than 10 years
   */
  public static SessionDays of(
      LocalDate start,
      int weeks,
      WeekRhythm rhythm,
      int sessionsPerDay,
      List<Span<LocalDate>> pauses) {
    Check.within("weeks", weeks, 1, MOST_WEEKS);
    Check.within("sessionsPerDay", sessionsPerDay, 1, MOST_A_DAY);
    int programDays = 7 * weeks;
    int sessionDays = rhythm.daysPerWeek() * weeks;
    Set<Integer> offsets = new HashSet<>(rhythm.offsets());
    List<Span<LocalDate>> inOrder =
        pauses.stream().sorted(Comparator.comparing(Span::start)).toList();
    List<LocalDate> days = new ArrayList<>(sessionDays);
    LocalDate day = start;
    LocalDate last = start.plusDays(programDays + 3660L);
    int next = 0;
    for (int counted = 0; counted < programDays || days.size() < sessionDays; ) {
      while (next < inOrder.size() && inOrder.get(next).end().compareTo(day) <= 0) {
        next++;
      }
      if (next < inOrder.size() && inOrder.get(next).contains(day)) {
        day = inOrder.get(next).end();
        if (day.isAfter(last)) {
          throw new BadInput("pauses", "The pauses add up to more than 10 years; end the program.");
        }
        continue;
      }
      boolean session =
          rhythm.named().isEmpty()
              ? offsets.contains(counted % 7)
              : rhythm.named().contains(day.getDayOfWeek());
      if (session && days.size() < sessionDays) {
        days.add(day);
      }
      counted++;
      day = day.plusDays(1);
    }
    return new SessionDays(start, days, day, sessionsPerDay);
  }

  /** First day of the program. */
  public LocalDate start() {
    return start;
  }

  /** The days with sessions, ascending; never empty. */
  public List<LocalDate> days() {
    return days;
  }

  /** Sessions on each of {@link #days()}. */
  public int sessionsPerDay() {
    return sessionsPerDay;
  }

  /** Sessions in all. */
  public int count() {
    return days.size() * sessionsPerDay;
  }

  /** Day of the first session. */
  public LocalDate firstDay() {
    return days.get(0);
  }

  /** Day of the last session. */
  public LocalDate lastDay() {
    return days.get(days.size() - 1);
  }

  /** The day after the program's last week, pauses included: the program ends before it. */
  public LocalDate endExclusive() {
    return endExclusive;
  }

  /** Sessions planned on that day. */
  public int on(LocalDate day) {
    return Collections.binarySearch(days, day) >= 0 ? sessionsPerDay : 0;
  }

  /** Sessions planned on days strictly after {@code day}. */
  public int after(LocalDate day) {
    return count() - through(day);
  }

  /** Sessions planned on days up to and including {@code day}. */
  public int through(LocalDate day) {
    int found = Collections.binarySearch(days, day);
    return (found >= 0 ? found + 1 : -found - 1) * sessionsPerDay;
  }
}
