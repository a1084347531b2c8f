package clinic.stimshelf.calc.dose;

import clinic.stimshelf.calc.Check;

/**
 * How often and how long: a week of the program is 7 days from its start day.
 *
 * @param sessionsPerDay 1 or more
 * @param daysPerWeek 1 to 7
 * @param weeks 1 or more
 */
public record Course(int sessionsPerDay, int daysPerWeek, int weeks) {

  private static final int MOST = 1_000_000_000;

  public Course {
    Check.within("sessionsPerDay", sessionsPerDay, 1, MOST);
    Check.within("daysPerWeek", daysPerWeek, 1, 7);
    Check.within("weeks", weeks, 1, MOST);
  }

  /** Sessions in all: a day x days x weeks. */
  public long sessions() {
    return (long) sessionsPerDay * daysPerWeek * weeks;
  }
}
