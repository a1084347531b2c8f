package clinic.stimshelf.program;

import java.time.LocalDate;
import java.util.List;

/** On which days a patient comes. The room of appointments says it. */
public interface BookedDays {

  /** Days with an appointment that stands, ascending, both ends included. */
  List<LocalDate> appointmentDays(Long patientId, LocalDate from, LocalDate to);
}
