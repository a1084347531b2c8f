package clinic.stimshelf.people;

import clinic.stimshelf.web.Reason;
import java.util.List;

/**
 * Whether a region and side may be stimulated, as far as screening goes.
 *
 * @param current whether a screening is on record that is neither stale nor overtaken by a change
 * @param screeningId the screening looked at; {@code null} if there is none
 * @param openContraindications what blocks
 * @param openHolds what blocks until somebody named has cleared it
 * @param unacceptedPrecautions what a licensed PT has yet to accept with a reason
 * @param why everything that stands against it, each with the step that cures it
 */
public record ScreeningStatus(
    boolean current,
    Long screeningId,
    List<Open> openContraindications,
    List<Open> openHolds,
    List<Open> unacceptedPrecautions,
    List<Reason> why) {

  /**
   * An answer that stands open.
   *
   * @param key of the question
   * @param question in the therapist's words
   * @param note what was noted beside the answer, or {@code null}
   */
  public record Open(String key, String question, String note) {}

  /** Whether nothing stands against it. */
  public boolean clear() {
    return why.isEmpty();
  }

  /** Everything that stands against it as sentences, each with its cure. */
  public List<String> reasons() {
    return why.stream().map(Reason::words).toList();
  }
}
