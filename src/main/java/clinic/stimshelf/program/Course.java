package clinic.stimshelf.program;

import java.time.LocalDate;
import java.util.List;

/**
 * What became of a program in a period.
 *
 * @param template title of the published example it began with, or {@code null}
 * @param lastOn last day with a session
 * @param completed whether it came to its planned end within the period
 * @param planned sessions planned in the period
 * @param done of them, done or begun: the pads were worn
 * @param noEntry planned sessions of which nothing is known
 */
public record Course(
    Long programId,
    Long locationId,
    Long patientId,
    Long therapistId,
    String template,
    LocalDate startsOn,
    LocalDate lastOn,
    boolean completed,
    int planned,
    int done,
    int noEntry,
    List<Line> lines) {

  /**
   * Pads of one type, with the facts of the type as the program was signed; a later version that
   * changes them makes a line of its own.
   *
   * @param perSession pads that a session wears
   * @param usesPerSet sessions a set was planned to last
   */
  public record Line(
      String padCode, int perSession, int padsPerPack, int usesPerSet, int planned, int done) {}
}
