package clinic.stimshelf.pads;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/** A room that knows of demand at the locations a test names, and of none elsewhere. */
@ApplicationScoped
class KnownDemand implements DatedDemand {
  private final Map<Long, List<DatedPacks>> dated = new ConcurrentHashMap<>();
  private final Map<Long, Integer> owed = new ConcurrentHashMap<>();

  void at(Long locationId, List<DatedPacks> packs, int owedPacks) {
    dated.put(locationId, packs);
    owed.put(locationId, owedPacks);
  }

  @Override
  public List<DatedPacks> dated(Long locationId, LocalDate from, LocalDate to) {
    return dated.getOrDefault(locationId, List.of());
  }

  @Override
  public int owed(Long padTypeId, Long locationId) {
    return owed.getOrDefault(locationId, 0);
  }
}
