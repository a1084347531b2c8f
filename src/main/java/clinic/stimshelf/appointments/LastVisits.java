package clinic.stimshelf.appointments;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.EnumSet;
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

  private static final Set<AppointmentState> TOLD = EnumSet.copyOf(AppointmentState.CAME);

  static {
    TOLD.add(AppointmentState.NO_SHOW);
  }

  @Inject EntityManager em;
  @Inject Clock clock;

  /**
   * What is known of a patient.
   *
   * @param cameAt the last appointment they came to, or {@code null}
   * @param locationId where that was, or {@code null}
   * @param noShowsInARow since then
   */
  public record Last(Instant cameAt, Long locationId, int noShowsInARow) {
    /** Never came and never failed to. */
    public static final Last NOTHING = new Last(null, null, 0);
  }

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
                "select a.patientId, a.startsAt, a.state, a.locationId from Appointment a where a.patientId in"
                    + " :patients and a.startsAt <= :now and a.startsAt > :since and a.state in"
                    + " :told order by a.startsAt desc, a.id desc",
                Object[].class)
            .setParameter("patients", patientIds)
            .setParameter("now", now)
            .setParameter("since", now.minus(MEMORY))
            .setParameter("told", TOLD)
            .getResultList();
    Set<Long> came = new HashSet<>();
    for (Object[] row : found) {
      Long patient = (Long) row[0];
      if (came.contains(patient)) {
        continue;
      }
      Last known = last.getOrDefault(patient, Last.NOTHING);
      if (row[2] == AppointmentState.NO_SHOW) {
        last.put(patient, new Last(null, null, known.noShowsInARow() + 1));
      } else {
        came.add(patient);
        last.put(patient, new Last((Instant) row[1], (Long) row[3], known.noShowsInARow()));
      }
    }
    return last;
  }
}
