package clinic.stimshelf.shelf;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.util.Collection;
import java.util.Map;
import java.util.stream.Collectors;

/** From tags to units and back. */
@ApplicationScoped
public class UnitTags {
  @Inject Units units;
  @Inject Kits kits;
  @Inject Shelf shelf;
  @Inject EntityManager em;

  /** The tags of the units; what is unknown is left out. */
  @Transactional
  public Map<Long, String> of(Collection<Long> unitIds) {
    return unitIds.isEmpty()
        ? Map.of()
        : em.createQuery("select u.id, u.tag from Unit u where u.id in :ids", Object[].class)
            .setParameter("ids", unitIds)
            .getResultStream()
            .collect(Collectors.toMap(row -> (Long) row[0], row -> (String) row[1]));
  }

  /**
   * The unit with the tag, or the one whose kit has a part with it.
   *
   * @throws clinic.stimshelf.web.NotFound if it hangs on neither
   */
  @Transactional
  public UnitView unit(String tag) {
    return kits.unitOfPart(tag).map(shelf::byId).orElseGet(() -> shelf.byTag(tag));
  }
}
