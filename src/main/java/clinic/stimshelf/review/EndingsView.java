package clinic.stimshelf.review;

import java.util.List;

/**
 * How programs ended in a period.
 *
 * @param ended all that ended: ran to their last session, stopped by decision, abandoned
 * @param abandoned of these
 * @param percent abandoned of ended, in words; a dash where none ended
 * @param kinds the three ways; they add up to {@code ended}
 * @param howFar abandoned programs by the share of their days up to the last session done; they add
 *     up to {@code abandoned}
 * @param months one row per month of the period in which a program ended
 * @param programs the abandoned ones, latest first, at most as many as a page holds
 * @param more abandoned ones beyond them
 */
public record EndingsView(
    int ended,
    int abandoned,
    String percent,
    List<Bar> kinds,
    List<Bar> howFar,
    List<Month> months,
    List<Given> programs,
    int more) {

  /**
   * @param width of its bar in a drawing of 100
   */
  public record Bar(String words, int programs, int width) {}

  /**
   * @param width of the bar of what was abandoned in a drawing of 100
   */
  public record Month(String words, int ended, int abandoned, int width) {}

  /**
   * An abandoned program.
   *
   * @param on the day it was ended
   * @param far how far in its last session was done
   */
  public record Given(
      String href, String name, String chartNumber, String on, String far, String reason) {}
}
