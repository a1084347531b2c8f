package clinic.stimshelf.appointments;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.util.Collection;
import java.util.List;

/** Booked appointments that lie ahead, for telling the patients. */
@ApplicationScoped
public class ComingVisits {
  @Inject EntityManager em;
  @Inject Clock clock;

  /** An appointment to come. */
  public record Coming(Long id, Long patientId, Long locationId, Instant startsAt) {}

  /** Those of the patients, in order of time. */
  @Transactional
  public List<Coming> of(Collection<Long> patientIds) {
    return patientIds.isEmpty()
        ? List.of()
        : em.createQuery(
                "select new clinic.stimshelf.appointments.ComingVisits$Coming(a.id, a.patientId,"
                    + " a.locationId, a.startsAt) from Appointment a where a.patientId in"
                    + " :patients and a.startsAt > :now and a.state = :booked order by a.startsAt,"
                    + " a.id",
                Coming.class)
            .setParameter("patients", patientIds)
            .setParameter("now", clock.instant())
            .setParameter("booked", AppointmentState.BOOKED)
            .getResultList();
  }

  /** Whoever is expected at one of the locations. */
  @Transactional
  public List<Long> expected(Collection<Long> locationIds) {
    return em.createQuery(
            "select distinct a.patientId from Appointment a where a.locationId in :at and"
                + " a.startsAt > :now and a.state = :booked",
            Long.class)
        .setParameter("at", locationIds)
        .setParameter("now", clock.instant())
        .setParameter("booked", AppointmentState.BOOKED)
        .getResultList();
  }
}
