package clinic.stimshelf.calc.days;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.Check;
import java.time.DayOfWeek;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * The days of a program week on which sessions fall: named weekdays, or a number of days spread
 * over the 7 days from the start day.
 *
 * <p>n days without names lie at the offsets {@code floor(7 i / n)}, i = 0 … n − 1; so 3 days a
 * week are offsets 0, 2 and 4.
 */
public final class WeekRhythm {

  private final EnumSet<DayOfWeek> named;
  private final int daysPerWeek;

  private WeekRhythm(EnumSet<DayOfWeek> named, int daysPerWeek) {
    this.named = named;
    this.daysPerWeek = daysPerWeek;
  }

  /**
   * @param weekdays at least one
   * @throws BadInput if there is none
   */
  public static WeekRhythm on(Set<DayOfWeek> weekdays) {
    if (weekdays.isEmpty()) {
      throw new BadInput("weekdays", "No weekday is named; name one or give days a week.");
    }
    EnumSet<DayOfWeek> named = EnumSet.copyOf(weekdays);
    return new WeekRhythm(named, named.size());
  }

  /**
   * @param daysPerWeek 1 to 7
   */
  public static WeekRhythm times(int daysPerWeek) {
    Check.within("daysPerWeek", daysPerWeek, 1, 7);
    return new WeekRhythm(EnumSet.noneOf(DayOfWeek.class), daysPerWeek);
  }

  /** Days with sessions in each program week, 1 to 7. */
  public int daysPerWeek() {
    return daysPerWeek;
  }

  /** The named weekdays; empty where the days are spread without names. */
  public Set<DayOfWeek> named() {
    return EnumSet.copyOf(named);
  }

  /** Offsets of the days without names within a program week, ascending from 0. */
  List<Integer> offsets() {
    List<Integer> offsets = new ArrayList<>(daysPerWeek);
    for (int i = 0; i < daysPerWeek; i++) {
      offsets.add(7 * i / daysPerWeek);
    }
    return offsets;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof WeekRhythm that
        && named.equals(that.named)
        && daysPerWeek == that.daysPerWeek;
  }

  @Override
  public int hashCode() {
    return 31 * named.hashCode() + daysPerWeek;
  }

  @Override
  public String toString() {
    return named.isEmpty() ? daysPerWeek + " days a week" : named.toString();
  }
}
