package clinic.stimshelf.shelf;

import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.FlushModeType;
import jakarta.transaction.TransactionScoped;
import java.io.Serializable;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.TreeMap;

/**
 * When each unit was with somebody, as known and as entered in this transaction, so that a file of
 * past uses puts no unit in two places.
 */
@TransactionScoped
public class EnteredSpans implements Serializable {
  private static final long serialVersionUID = 1L;

  @Inject transient EntityManager database;

  private final Map<Long, TreeMap<Instant, Instant>> spans = new HashMap<>();

  /** Whether the time is free for the unit; if so it is taken. A use without end never ends. */
  boolean take(Long unitId, Instant from, Instant to) {
    TreeMap<Instant, Instant> known = spans.computeIfAbsent(unitId, this::read);
    Instant end = to == null ? Instant.MAX : to;
    Map.Entry<Instant, Instant> before = known.lowerEntry(end);
    if (before != null && before.getValue().isAfter(from) && !from.equals(end)) {
      return false;
    }
    known.merge(from, end, (one, other) -> one.isAfter(other) ? one : other);
    return true;
  }

  private TreeMap<Instant, Instant> read(Long unitId) {
    TreeMap<Instant, Instant> known = new TreeMap<>();
    database
        .createQuery(
            "select u.startsAt, u.endedAt from UnitUseRow u"
                + " where u.unitId = :unit and u.voided = false",
            Object[].class)
        .setParameter("unit", unitId)
        .setFlushMode(FlushModeType.COMMIT)
        .getResultStream()
        .forEach(
            row -> known.put((Instant) row[0], row[1] == null ? Instant.MAX : (Instant) row[1]));
    return known;
  }
}
