package clinic.stimshelf.shelf;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

@ApplicationScoped
class UnitUses implements PanacheRepository<UnitUseRow> {

  Optional<UnitUseRow> running(Long unitId) {
    return find("activeUnitId", unitId).firstResultOptional();
  }

  Map<Long, UnitUseRow> running(Collection<Long> unitIds) {
    return unitIds.isEmpty()
        ? Map.of()
        : list("activeUnitId in ?1", unitIds).stream()
            .collect(Collectors.toMap(use -> use.unitId, use -> use));
  }

  List<UnitUseRow> of(Long unitId) {
    return list("unitId = ?1 order by startsAt desc, id desc", unitId);
  }

  /** Whether the unit was used by anybody within the time; an open end lies in the far future. */
  boolean anyWithin(Long unitId, Instant from, Instant to) {
    return count(
            "unitId = ?1 and voided = false and startsAt < ?3 and (endedAt is null or endedAt > ?2)",
            unitId,
            from,
            to)
        > 0;
  }
}
