package clinic.stimshelf.pads;

import clinic.stimshelf.location.Locations;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Looks lots up by number. */
@ApplicationScoped
public class Lots {
  @Inject Balances balances;
  @Inject Locations locations;

  /** The lots by number with what the location has of them; what is unknown is left out. */
  @Transactional
  public Map<Long, LotView> at(Long locationId, Collection<Long> lotIds) {
    if (lotIds.isEmpty()) {
      return Map.of();
    }
    List<LotFacts> lots = balances.facts(lotIds);
    Map<Long, Integer> packs =
        balances.ofTypes(lots.stream().map(LotFacts::padTypeId).distinct().toList(), locationId);
    return lots.stream()
        .map(
            lot -> PadStock.view(lot, packs.getOrDefault(lot.id(), 0), locations.today(locationId)))
        .collect(Collectors.toMap(LotView::id, Function.identity()));
  }

  /** How many packs of each pad type the lines hold; lines of unknown lots are left out. */
  @Transactional
  public Map<String, Integer> codes(List<PackLine> lines) {
    Map<String, Integer> packs = new TreeMap<>();
    if (!lines.isEmpty()) {
      Map<Long, LotFacts> lots =
          balances.facts(lines.stream().map(PackLine::lotId).toList()).stream()
              .collect(Collectors.toMap(LotFacts::id, Function.identity()));
      for (PackLine line : lines) {
        LotFacts lot = lots.get(line.lotId());
        if (lot != null) {
          packs.merge(lot.code(), line.packs(), Integer::sum);
        }
      }
    }
    return packs;
  }
}
