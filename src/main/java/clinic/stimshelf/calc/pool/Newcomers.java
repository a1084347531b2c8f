package clinic.stimshelf.calc.pool;

/** Requests that nobody has made yet and that will be served first when they are. */
@FunctionalInterface
public interface Newcomers {

  /** Nobody comes in between. */
  Newcomers NONE = day -> 0;

  /**
   * How many of them are expected to take a unit by the end of the day so many days from today; 0
   * or more, and finite.
   *
   * @param day 0 is today
   */
  double expectedBy(int day);
}
