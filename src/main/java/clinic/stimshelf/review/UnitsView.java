package clinic.stimshelf.review;

import java.util.List;

/**
 * How units fared in a period.
 *
 * @param due loans that were due in the period
 * @param late of these, how many came in after their day or are still out after it
 * @param stretches from in time to very late; they add up to the loans due
 * @param middleDaysLate of those late, the one in the middle; {@code null} where none was
 * @param faults the units with most faults for their use
 */
public record UnitsView(
    int due, int late, List<Stretch> stretches, Integer middleDaysLate, List<Failing> faults) {

  /**
   * @param width of its bar in a drawing of 100
   */
  public record Stretch(String words, int loans, int width) {}

  /**
   * @param faults faults and drops noticed in the period
   * @param sessions in the period
   * @param per100 faults for 100 sessions, in words
   * @param few whether there were too few sessions to say much
   */
  public record Failing(
      String tag, String kind, long faults, long sessions, String per100, boolean few) {}
}
