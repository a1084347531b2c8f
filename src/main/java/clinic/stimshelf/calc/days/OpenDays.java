package clinic.stimshelf.calc.days;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.EnumSet;
import java.util.Set;
import java.util.TreeSet;

/**
 * The days on which a location is open: weekdays, less single closed days (holidays and closures).
 * A half day is an open day.
 *
 * <p>A search looks at no more than 366 closed days in a row; past that it says that no day is
 * open, because a location that stays closed for a year has no next appointment.
 */
public final class OpenDays {

  private static final int LONGEST_CLOSURE = 366;

  private final EnumSet<DayOfWeek> weekdays;
  private final TreeSet<LocalDate> closed;

  private OpenDays(EnumSet<DayOfWeek> weekdays, TreeSet<LocalDate> closed) {
    this.weekdays = weekdays;
    this.closed = closed;
  }

  /**
   * @param weekdays the weekdays on which the location opens; may be empty, then no day is open
   * @param closed single days on which it stays closed although the weekday says open
   */
  public static OpenDays of(Set<DayOfWeek> weekdays, Collection<LocalDate> closed) {
    EnumSet<DayOfWeek> open = EnumSet.noneOf(DayOfWeek.class);
    open.addAll(weekdays);
    return new OpenDays(open, new TreeSet<>(closed));
  }

  /** Every day of the week, none closed. */
  public static OpenDays everyDay() {
    return of(EnumSet.allOf(DayOfWeek.class), Set.of());
  }

  /** The same location with these days closed as well. */
  public OpenDays withClosed(Collection<LocalDate> more) {
    TreeSet<LocalDate> all = new TreeSet<>(closed);
    all.addAll(more);
    return new OpenDays(weekdays, all);
  }

  /** Whether the location is open on that day. */
  public boolean isOpen(LocalDate day) {
    return weekdays.contains(day.getDayOfWeek()) && !closed.contains(day);
  }

  /**
   * The first open day strictly after {@code day}.
   *
   * @throws BadInput if the 366 days from there are all closed
   */
  public LocalDate firstOpenAfter(LocalDate day) {
    return firstOpenOnOrAfter(day.plusDays(1));
  }

  /**
   * {@code day} if it is open, else the first open day after it.
   *
   * @throws BadInput if the 366 days from there are all closed
   */
  public LocalDate firstOpenOnOrAfter(LocalDate day) {
    return search(day, 1);
  }

  /**
   * {@code day} if it is open, else the last open day before it.
   *
   * @throws BadInput if the 366 days back from there are all closed
   */
  public LocalDate lastOpenOnOrBefore(LocalDate day) {
    return search(day, -1);
  }

  /**
   * Counts the open days from {@code startInclusive} to {@code endExclusive}.
   *
   * @return 0 where the end is not after the start
   */
  public long openDaysBetween(LocalDate startInclusive, LocalDate endExclusive) {
    long days = ChronoUnit.DAYS.between(startInclusive, endExclusive);
    if (days <= 0) {
      return 0;
    }
    long open = days / 7 * weekdays.size();
    for (long i = days - days % 7; i < days; i++) {
      open += weekdays.contains(startInclusive.plusDays(i).getDayOfWeek()) ? 1 : 0;
    }
    return open
        - closed.subSet(startInclusive, endExclusive).stream()
            .filter(day -> weekdays.contains(day.getDayOfWeek()))
            .count();
  }

  /**
   * The n-th open day after {@code day}, or before it where n is negative; {@code day} itself, open
   * or not, is not counted.
   *
   * @param n at most 100 000 either way; 0 gives {@code day} back, open or not
   * @throws BadInput if 366 days in a row are closed on the way
   */
  public LocalDate plusOpenDays(LocalDate day, int n) {
    Check.within("n", n, -100_000, 100_000);
    int step = Integer.signum(n);
    LocalDate at = day;
    for (int i = 0; i != n; i += step) {
      at = search(at.plusDays(step), step);
    }
    return at;
  }

  private LocalDate search(LocalDate from, int step) {
    LocalDate day = from;
    for (int i = 0; i < LONGEST_CLOSURE; i++, day = day.plusDays(step)) {
      if (isOpen(day)) {
        return day;
      }
    }
    throw new BadInput(
        "openDays",
        "No day is open in the 366 days "
            + (step > 0 ? "from " : "up to ")
            + from
            + "; enter opening hours or shorten the closure.");
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof OpenDays that
        && weekdays.equals(that.weekdays)
        && closed.equals(that.closed);
  }

  @Override
  public int hashCode() {
    return 31 * weekdays.hashCode() + closed.hashCode();
  }

  @Override
  public String toString() {
    return weekdays + " without " + closed;
  }
}
