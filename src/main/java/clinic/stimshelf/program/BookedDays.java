package clinic.stimshelf.program;

import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Map;

/** On which days a patient comes. The room of appointments says it. */
public interface BookedDays {

  /** Days with an appointment that stands, ascending, both ends included. */
  List<LocalDate> appointmentDays(Long patientId, LocalDate from, LocalDate to);

  /**
   * The last day on which each patient came, from a day on; who did not come is absent. Asked for
   * many in one question.
   */
  Map<Long, LocalDate> lastVisits(Collection<Long> patientIds, LocalDate from);
}
