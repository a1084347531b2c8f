package clinic.stimshelf.program;

import io.quarkus.arc.DefaultBean;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.LocalDate;
import java.util.List;

/** Without a room of appointments nobody comes. */
@DefaultBean
@ApplicationScoped
class NothingBooked implements BookedDays {
  @Override
  public List<LocalDate> appointmentDays(Long patientId, LocalDate from, LocalDate to) {
    return List.of();
  }
}
