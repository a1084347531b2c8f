package clinic.stimshelf.appointments;

import clinic.stimshelf.web.TryAgain;
import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.LockModeType;
import jakarta.persistence.PersistenceException;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.Map;

@ApplicationScoped
class ResourceDays implements PanacheRepository<ResourceDay> {
  private static final String HERE = "resourceKind = ?1 and resourceId = ?2 and onDay = ?3";

  /**
   * Locks the day of a location, with its rooms and units, then the patient's own, who may come to
   * two locations. Always in this order, so that two bookings wait for one another instead of each
   * for the other.
   *
   * @param patientId {@code null} where nobody's day changes
   */
  void lock(LocalDate day, Long locationId, Long patientId) {
    Map<String, Long> resources = new LinkedHashMap<>();
    resources.put("location", locationId);
    if (patientId != null) {
      resources.put("patient", patientId);
    }
    open(day, locationId, resources);
    resources.forEach(
        (kind, id) ->
            find(HERE, kind, id, day).withLock(LockModeType.PESSIMISTIC_WRITE).firstResult());
  }

  /**
   * Adds the rows that are missing; who adds waits at the location, before it holds any of them.
   */
  private void open(LocalDate day, Long locationId, Map<String, Long> resources) {
    if (resources.entrySet().stream().allMatch(one -> there(one, day))) {
      return;
    }
    getEntityManager()
        .createNativeQuery("select id from location where id = :id for update", Long.class)
        .setParameter("id", locationId)
        .getSingleResult();
    for (Map.Entry<String, Long> one : resources.entrySet()) {
      if (!there(one, day)) {
        ResourceDay row = new ResourceDay();
        row.resourceKind = one.getKey();
        row.resourceId = one.getValue();
        row.onDay = day;
        persist(row);
      }
    }
    try {
      flush();
    } catch (PersistenceException anotherLocationDid) {
      throw new TryAgain("Two bookings opened the same day at once", anotherLocationDid);
    }
  }

  private boolean there(Map.Entry<String, Long> one, LocalDate day) {
    return count(HERE, one.getKey(), one.getValue(), day) > 0;
  }
}
