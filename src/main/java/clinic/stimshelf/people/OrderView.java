package clinic.stimshelf.people;

import com.fasterxml.jackson.annotation.JsonFormat;
import java.time.LocalDate;

/** A prescriber's order as people read it. */
public record OrderView(
    @JsonFormat(shape = JsonFormat.Shape.STRING) Long id,
    String prescriber,
    LocalDate orderedOn,
    LocalDate endsOn,
    String ordered,
    String restrictions,
    String withdrawnReason) {

  public boolean runsOn(LocalDate day) {
    return withdrawnReason == null
        && !day.isBefore(orderedOn)
        && (endsOn == null || !day.isAfter(endsOn));
  }
}
