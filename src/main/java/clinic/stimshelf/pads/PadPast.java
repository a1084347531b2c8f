package clinic.stimshelf.pads;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What a location has seen of a pad type, counted: for reckoning with it. */
@ApplicationScoped
public class PadPast {
  @Inject PadCatalog catalog;
  @Inject PadHistory history;
  @Inject Locations locations;
  @Inject PadWear wear;

  /**
   * Packs that left the cupboard.
   *
   * @param days over which they are counted
   * @param takings how often so many packs were taken at once
   * @param leadDays days that past deliveries took
   */
  public record Use(int days, Map<Integer, Integer> takings, List<Integer> leadDays) {

    /** Packs in all. */
    public int packs() {
      return takings.entrySet().stream().mapToInt(e -> e.getKey() * e.getValue()).sum();
    }
  }

  /**
   * Sets that ended alike.
   *
   * @param uses sessions, those included that nobody told of; a part of one where a set failed in
   *     its first
   */
  public record Lived(double uses, boolean worn, long sets) {}

  /** Sets of a lot that ended before their rated uses, and sessions of all its sets. */
  public record LotUse(String lot, long failures, long uses) {}

  /** What left in the days that the order level is reckoned from. */
  @Transactional
  public Use use(String code, Long locationId) {
    PadType type = catalog.row(code);
    LocationView at = locations.byId(locationId);
    LocalDate today = locations.today(locationId);
    int days = history.days(locationId, today, at.zone());
    Map<Integer, Integer> takings = new TreeMap<>();
    history
        .past(locationId, today, at.zone(), days, 1)
        .getOrDefault(type.id, PadHistory.Past.empty())
        .draws()
        .forEach(packs -> takings.merge(Math.min(packs, 1_000), 1, Integer::sum));
    return new Use(
        days,
        takings,
        history.leadDays(locationId, today, at.zone()).getOrDefault(type.id, List.of()));
  }

  /** Sets that ended, as the planned life is reckoned from them; a lost one was good so long. */
  @Transactional
  public List<Lived> lives(String code) {
    Map<Boolean, Map<Double, Long>> counted = Map.of(true, new TreeMap<>(), false, new TreeMap<>());
    wear.livesNow(catalog.row(code))
        .lives()
        .forEach(
            life -> counted.get(life.ended()).merge(life.time(), (long) life.count(), Long::sum));
    List<Lived> lives = new ArrayList<>();
    counted.forEach(
        (worn, byUses) -> byUses.forEach((uses, sets) -> lives.add(new Lived(uses, worn, sets))));
    lives.sort(Comparator.comparingDouble(Lived::uses).thenComparing(Lived::worn));
    return lives;
  }

  /** Lots as they are compared; one that was not used yet is left out. */
  @Transactional
  public List<LotUse> lots(String code, Long locationId) {
    return wear.of(code, locationId).lots().stream()
        .filter(lot -> lot.uses() >= Math.max(1, lot.early()))
        .map(lot -> new LotUse(lot.lot(), lot.early(), lot.uses()))
        .sorted(Comparator.comparing(LotUse::lot))
        .toList();
  }
}
