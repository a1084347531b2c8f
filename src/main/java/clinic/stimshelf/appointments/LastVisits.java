package clinic.stimshelf.appointments;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** When patients came last, and how often in a row they did not. */
@ApplicationScoped
public class LastVisits {
  /** Who has not come for so long is called in any case. */
  private static final Duration MEMORY = Duration.ofDays(400);

  @Inject EntityManager em;
  @Inject Clock clock;

  /**
   * What is known of a patient.
   *
   * @param cameAt the last appointment they came to, or {@code null}
   * @param noShowsInARow since then
   */
  public record Last(Instant cameAt, int noShowsInARow) {}

  /** Patients without any appointment that took place or was missed are absent. */
  @Transactional
  public Map<Long, Last> of(Collection<Long> patientIds) {
    Map<Long, Last> last = new HashMap<>();
    if (patientIds.isEmpty()) {
      return last;
    }
    Instant now = clock.instant();
    List<Object[]> found =
        em.createQuery(
                "select a.patientId, a.startsAt, a.state from Appointment a where a.patientId in"
                    + " :patients and a.startsAt <= :now and a.startsAt > :since and a.state in"
                    + " :told order by a.startsAt desc, a.id desc",
                Object[].class)
            .setParameter("patients", patientIds)
            .setParameter("now", now)
            .setParameter("since", now.minus(MEMORY))
            .setParameter(
                "told",
                Set.of(
                    AppointmentState.ARRIVED,
                    AppointmentState.DONE,
                    AppointmentState.PARTIAL,
                    AppointmentState.NOT_DONE,
                    AppointmentState.NO_SHOW))
            .getResultList();
    Set<Long> came = new HashSet<>();
    for (Object[] row : found) {
      Long patient = (Long) row[0];
      if (came.contains(patient)) {
        continue;
      }
      Last known = last.getOrDefault(patient, new Last(null, 0));
      if (row[2] == AppointmentState.NO_SHOW) {
        last.put(patient, new Last(null, known.noShowsInARow() + 1));
      } else {
        came.add(patient);
        last.put(patient, new Last((Instant) row[1], known.noShowsInARow()));
      }
    }
    return last;
  }
}
