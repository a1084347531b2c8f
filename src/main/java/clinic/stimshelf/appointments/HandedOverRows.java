package clinic.stimshelf.appointments;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;

@ApplicationScoped
class HandedOverRows implements PanacheRepository<HandedOver> {
  @Inject Clock clock;

  /**
   * Counts a change that calendars must hear of, and remembers whose the appointment no longer is.
   */
  void follow(Appointment row, Appointment.Facts before) {
    if (!row.facts().calendarsMustHear(before)) {
      return;
    }
    row.feedSequence++;
    if (before.therapistId() == null || before.therapistId().equals(row.therapistId)) {
      return;
    }
    HandedOver left =
        find("appointmentId = ?1 and therapistId = ?2", row.id, before.therapistId())
            .firstResultOptional()
            .orElseGet(HandedOver::new);
    left.appointmentId = row.id;
    left.therapistId = before.therapistId();
    left.startsAt = before.startsAt();
    left.endsAt = before.endsAt();
    left.feedSequence = row.feedSequence;
    left.handedAt = clock.instant();
    persist(left);
  }
}
