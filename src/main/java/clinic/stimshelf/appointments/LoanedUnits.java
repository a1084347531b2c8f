package clinic.stimshelf.appointments;

import java.time.LocalDate;
import java.util.Collection;
import java.util.Map;

/** Which unit a patient has at home and may be treated with. The room of loans says it. */
public interface LoanedUnits {

  /** The running loan of each of the patients who has one. */
  Map<Long, Loaned> of(Collection<Long> patientIds);

  /**
   * A unit at a patient's home.
   *
   * @param href page of the loan
   */
  record Loaned(Long loanId, Long unitId, String unitTag, LocalDate dueOn, String href) {}
}
