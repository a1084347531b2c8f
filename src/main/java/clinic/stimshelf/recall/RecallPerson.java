package clinic.stimshelf.recall;

import com.fasterxml.jackson.annotation.JsonIgnore;
import java.util.List;

/**
 * Somebody who had what is recalled.
 *
 * @param location code of the patient's location
 * @param times when and what, first begun first
 * @param contacts attempts to reach them, newest first
 * @param excuse why they are left unreached, or {@code null}
 */
public record RecallPerson(
    String patientId,
    String chartNumber,
    @JsonIgnore String name,
    @JsonIgnore String phone,
    @JsonIgnore String email,
    @JsonIgnore String address,
    @JsonIgnore String guardian,
    @JsonIgnore boolean died,
    String language,
    boolean interpreter,
    String location,
    StillHas still,
    List<HeldIt> times,
    boolean reached,
    List<ReachView> contacts,
    Excuse excuse) {

  /** A stated reason for leaving somebody unreached. */
  public record Excuse(String reason, java.time.Instant at, String by) {}

  /** Whether nothing more is to be done about this person. */
  public boolean settled() {
    return reached || excuse != null;
  }

  /** Where it stands, in a word. */
  public String standing() {
    return reached
        ? "reached"
        : excuse != null ? "left, with a reason" : contacts.isEmpty() ? "not tried" : "not reached";
  }

  /** In which order one would act: who has it now and was not reached comes first. */
  int urgency() {
    return (settled() ? 10 : 0) + still.ordinal() * 2 + (contacts.isEmpty() ? 0 : 1);
  }
}
