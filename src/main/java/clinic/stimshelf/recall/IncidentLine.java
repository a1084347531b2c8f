package clinic.stimshelf.recall;

import com.fasterxml.jackson.annotation.JsonIgnore;
import java.time.Instant;
import java.time.LocalDate;

/** An incident in a list. */
public record IncidentLine(
    String id,
    IncidentKind kind,
    Harm harm,
    String location,
    String patientId,
    String chartNumber,
    @JsonIgnore String name,
    String unitTag,
    Instant happenedAt,
    LocalDate reportOn,
    int untold,
    RecallState state) {

  public boolean open() {
    return state == RecallState.OPEN;
  }
}
