package clinic.stimshelf.people;

import java.time.Instant;
import java.util.List;

/**
 * A screening as people read it.
 *
 * @param outdatedReason why it no longer holds; {@code null} while it does
 * @param superseded whether a newer one of the same region and side took its place
 */
public record ScreeningView(
    Long id,
    Long patientId,
    String region,
    String regionWords,
    Side side,
    Long screenedBy,
    String screenedByName,
    Instant screenedAt,
    boolean superseded,
    String outdatedReason,
    List<Line> answers) {

  /**
   * @param effect what the answer does at home; {@code null} for a no
   * @param acceptedByName the licensed PT who accepted the precaution, or {@code null}
   */
  public record Line(
      String key,
      String question,
      Answer answer,
      String note,
      Effect effect,
      String acceptedByName,
      Instant acceptedAt,
      String acceptedReason) {}

  /** The answers that are not a plain no. */
  public List<Line> exceptions() {
    return answers.stream().filter(line -> line.answer() != Answer.NO).toList();
  }
}
