package clinic.stimshelf.program;

import io.quarkus.arc.DefaultBean;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Map;

/** Without a room of appointments nobody comes. */
@DefaultBean
@ApplicationScoped
class NothingBooked implements BookedDays {
  @Override
  public List<LocalDate> appointmentDays(Long patientId, LocalDate from, LocalDate to) {
    return List.of();
  }

  @Override
  public Map<Long, LocalDate> lastVisits(Collection<Long> patientIds, LocalDate from) {
    return Map.of();
  }
}
