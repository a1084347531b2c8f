package clinic.stimshelf.appointments;

import io.quarkus.arc.DefaultBean;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.Collection;
import java.util.Map;

/** Without a room of loans nobody has a unit at home. */
@DefaultBean
@ApplicationScoped
class NothingLoaned implements LoanedUnits {
  @Override
  public Map<Long, Loaned> of(Collection<Long> patientIds) {
    return Map.of();
  }
}
