package clinic.stimshelf.shelf;

import clinic.stimshelf.codes.Tag;
import clinic.stimshelf.web.NotFound;
import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.LockModeType;
import java.util.Collection;
import java.util.List;
import java.util.Optional;

@ApplicationScoped
class Units implements PanacheRepository<Unit> {
  private static final String WHOLE = "from Unit u join fetch u.kind left join fetch u.spot where ";

  /** What tags are compared by: without a scanner's frame, and without regard to letter case. */
  static String key(String tag) {
    String text = tag == null ? "" : tag;
    return Tag.problemWith(text).isPresent() ? text.strip() : Tag.of(text).key();
  }

  Long idOf(String tag) {
    Optional<String> problem = Tag.problemWith(tag == null ? "" : tag);
    if (problem.isPresent()) {
      throw new NotFound(problem.get());
    }
    return getEntityManager()
        .createQuery("select u.id from Unit u where u.tagKey = :key", Long.class)
        .setParameter("key", key(tag))
        .getResultStream()
        .findFirst()
        .orElseThrow(() -> new NotFound("There is no unit with the tag “" + tag + "”."));
  }

  Unit byId(Long id) {
    Unit unit = find(WHOLE + "u.id = ?1", id).firstResult();
    if (unit == null) {
      throw new NotFound("There is no such unit.");
    }
    return unit;
  }

  /** Holds the row until the transaction ends, so that one change follows the other. */
  Unit locked(Long id) {
    Unit unit = findById(id, LockModeType.PESSIMISTIC_WRITE);
    if (unit == null) {
      throw new NotFound("There is no such unit.");
    }
    return unit;
  }

  List<Unit> at(Long locationId) {
    return list(WHOLE + "u.locationId = ?1 order by u.tagKey", locationId);
  }

  List<Unit> fleet(Collection<Long> locationIds) {
    return locationIds.isEmpty()
        ? List.of()
        : list(WHOLE + "u.locationId in ?1 order by u.tagKey", locationIds);
  }

  List<Unit> bySerial(String serial) {
    return list(WHOLE + "u.serial = ?1 order by u.tagKey", serial);
  }

  List<Unit> byIds(List<Long> ids) {
    return ids.isEmpty() ? List.of() : list(WHOLE + "u.id in ?1 order by u.tagKey", ids);
  }
}
