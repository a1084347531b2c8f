package clinic.stimshelf.loans;

import java.time.Instant;
import java.time.LocalDate;

/**
 * A loan as a file tells it: it has happened already, so no gate of today is asked.
 *
 * @param ref the file's own key; a known one changes nothing
 * @param returnedAt {@code null} while it is out
 * @param missing whether the unit is lost track of
 * @param writtenOffAt when a unit that never came back was given up, or {@code null}
 */
public record PastLoan(
    String ref,
    String unitTag,
    Long programId,
    Instant checkedOutAt,
    LocalDate dueOn,
    Instant returnedAt,
    boolean missing,
    Instant writtenOffAt,
    String note) {

  /** When the loan ended, or {@code null} while it is open. */
  Instant endedAt() {
    return returnedAt == null ? writtenOffAt : returnedAt;
  }
}
