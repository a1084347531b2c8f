package clinic.stimshelf.calc.outcome;

import clinic.stimshelf.calc.BadInput;
import clinic.stimshelf.calc.days.Span;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;

/**
 * How far into a program somebody came: the share of its days up to and with one of them.
 *
 * @param percent 0 to 100, to the nearest whole one; 0 before the first day, 100 after the last
 */
public record Reached(int percent) {

  /**
   * @param course first day of the program, and the day after its last
   * @param lastDone the last day on which a session was done
   */
  public static Reached of(Span<LocalDate> course, LocalDate lastDone) {
    long all = ChronoUnit.DAYS.between(course.start(), course.end());
    long gone = ChronoUnit.DAYS.between(course.start(), lastDone) + 1;
    return new Reached((int) Math.max(0, Math.min(100, Math.round(100.0 * gone / all))));
  }

  /**
   * @throws BadInput if it is no percentage
   */
  public Reached {
    if (percent < 0 || percent > 100) {
      throw new BadInput("percent", "The share must be 0 to 100 percent.");
    }
  }

  /** The quarter in which that is, 1 to 4; each includes its end: 25 % is in the first. */
  public int quarter() {
    return Math.max(1, (percent + 24) / 25);
  }
}
