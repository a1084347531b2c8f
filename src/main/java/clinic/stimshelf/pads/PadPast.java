package clinic.stimshelf.pads;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
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
  private static final int YEARS = 2;

  @Inject PadCatalog catalog;
  @Inject PadHistory history;
  @Inject Locations locations;
  @Inject EntityManager em;

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

  /** Sets that ended alike. */
  public record Lived(int uses, boolean worn, long sets) {}

  /** Sets of a lot that wore before their rated uses, and sessions of all its sets. */
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

  /** Sets that ended in the last two years, lost ones left out. */
  @Transactional
  public List<Lived> lives(String code, Long locationId) {
    Map<Boolean, Map<Integer, Long>> counted =
        Map.of(true, new TreeMap<>(), false, new TreeMap<>());
    for (Object[] row :
        ended("s.uses, s.outcome, count(s)", "s.uses, s.outcome", "", code, locationId)) {
      counted
          .get(((PadOutcome) row[1]).wornOut())
          .merge((Integer) row[0], (Long) row[2], Long::sum);
    }
    List<Lived> lives = new ArrayList<>();
    counted.forEach(
        (worn, byUses) -> byUses.forEach((uses, sets) -> lives.add(new Lived(uses, worn, sets))));
    lives.sort(Comparator.comparingInt(Lived::uses).thenComparing(Lived::worn));
    return lives;
  }

  /** Lots of sets that ended in the last two years. */
  @Transactional
  public List<LotUse> lots(String code, Long locationId) {
    int rated = catalog.row(code).ratedUses;
    Map<String, long[]> lots = new TreeMap<>();
    for (Object[] row :
        ended(
            "l.number, s.uses, s.outcome, count(s)",
            "l.number, s.uses, s.outcome",
            " join s.lot l",
            code,
            locationId)) {
      long[] sums = lots.computeIfAbsent((String) row[0], lot -> new long[2]);
      int uses = (Integer) row[1];
      long sets = (Long) row[3];
      sums[0] += ((PadOutcome) row[2]).wornOut() && uses < rated ? sets : 0;
      sums[1] += uses * sets;
    }
    List<LotUse> seen = new ArrayList<>();
    lots.forEach(
        (lot, sums) -> {
          if (sums[1] >= Math.max(1, sums[0])) {
            seen.add(new LotUse(lot, sums[0], sums[1]));
          }
        });
    return seen;
  }

  private List<Object[]> ended(
      String what, String groups, String join, String code, Long locationId) {
    Long type = catalog.row(code).id;
    return em.createQuery(
            "select "
                + what
                + " from PadSet s"
                + join
                + " where s.type.id = :type and s.locationId = :at and s.closedOn >= :from and"
                + " s.outcome is not null and s.outcome <> :lost group by "
                + groups
                + " order by "
                + groups,
            Object[].class)
        .setParameter("type", type)
        .setParameter("at", locationId)
        .setParameter("from", locations.today(locationId).minusYears(YEARS))
        .setParameter("lost", PadOutcome.LOST)
        .getResultList();
  }
}
