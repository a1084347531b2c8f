package clinic.stimshelf.people;

import java.time.Instant;
import java.util.List;

/**
 * A therapist's screening as entered: one confirmed answer for each question asked of the region.
 *
 * @param muscle any muscle of the region, by its key in {@code config/muscles.yaml}
 * @param happenedAt {@code null} for now
 * @param lateReason why it is entered on a later day
 */
public record NewScreening(
    Long patientId,
    String muscle,
    Side side,
    List<Confirmed> answers,
    Instant happenedAt,
    String lateReason) {

  /**
   * @param note beside the answer, or {@code null}
   * @param acceptance a licensed PT's reason to accept the precaution, or {@code null}
   */
  public record Confirmed(String key, Answer answer, String note, String acceptance) {}
}
