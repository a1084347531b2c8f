package clinic.stimshelf.appointments;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/** What the front desk looks at: who comes next. */
@ApplicationScoped
public class AppointmentsOfDay {
  private static final Duration LATE_COMERS = Duration.ofMinutes(30);

  @Inject Appointments appointments;
  @Inject Clock clock;

  /** All of a location's day, by time. */
  @Transactional
  public List<AppointmentView> of(Long locationId, LocalDate day) {
    return appointments.ofDay(locationId, day);
  }

  /** What is not over and begins within that time, or began up to half an hour ago. */
  @Transactional
  public List<AppointmentView> next(Long locationId, Duration within) {
    Instant now = clock.instant();
    return appointments.between(locationId, now.minus(LATE_COMERS), now.plus(within)).stream()
        .filter(one -> !one.state().over())
        .toList();
  }
}
