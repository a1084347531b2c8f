package clinic.stimshelf.appointments;

import clinic.stimshelf.program.Programs;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;

/** Where a patient's appointments change, the due day and the packs of their programs follow. */
@ApplicationScoped
class DueDaysFollow {
  @Inject Programs programs;

  void follow(@Observes AppointmentChanged changed) {
    programs.appointmentsChanged(changed.patientId());
  }
}
