package clinic.stimshelf.pads;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import jakarta.transaction.Transactional;
import java.util.List;
import java.util.Map;

/**
 * Drawers by the treatment tables. What lies in them is part of the location's stock, so filling
 * one moves nothing in the ledger; a take does.
 */
@Retried
@ApplicationScoped
public class TreatmentDrawers {
  @Inject EntityManager em;
  @Inject PadCatalog catalog;
  @Inject Balances balances;
  @Inject Locations locations;
  @Inject Trail trail;
  @Inject EventTimes times;

  /**
   * A drawer and what it should be filled with.
   *
   * @param packs that should lie there now
   */
  public record DrawerView(
      Long id, String name, String code, String padName, int fillTo, int packs) {

    /** Packs to bring there. */
    public int missing() {
      return Math.max(0, fillTo - packs);
    }
  }

  /** Every drawer of a location, by name. */
  @Transactional
  public List<DrawerView> at(Long locationId) {
    return em.createQuery(
            "select new clinic.stimshelf.pads.TreatmentDrawers$DrawerView(d.id, d.name, t.code,"
                + " t.name, d.fillTo, d.packs) from TreatmentDrawer d, PadType t where"
                + " t.id = d.padTypeId and d.locationId = :at order by d.name, t.name",
            DrawerView.class)
        .setParameter("at", locationId)
        .getResultList();
  }

  /** Says up to how many packs of a type a drawer is filled; 0 gives it up. */
  @Transactional
  public void level(Long locationId, String name, String code, int fillTo) {
    Refusals refusals = new Refusals();
    if (PadStock.blank(name) || name.strip().length() > 80) {
      refusals.add("name", "A drawer's name has 1 to 80 characters.");
    }
    if (fillTo < 0 || fillTo > 1_000) {
      refusals.add("fillTo", "A level is a whole number from 0 to 1000, not " + fillTo + ".");
    }
    refusals.throwIfAny();
    PadType type = catalog.row(code);
    balances.holdType(type.id);
    TreatmentDrawer drawer =
        em.createQuery(
                "from TreatmentDrawer d where d.locationId = :at and d.name = :name and"
                    + " d.padTypeId = :type",
                TreatmentDrawer.class)
            .setParameter("at", locationId)
            .setParameter("name", name.strip())
            .setParameter("type", type.id)
            .getResultStream()
            .findFirst()
            .orElse(null);
    Integer before = drawer == null ? null : drawer.fillTo;
    if (fillTo == 0) {
      if (drawer != null) {
        em.remove(drawer);
      }
    } else {
      if (drawer == null) {
        drawer = new TreatmentDrawer();
        drawer.locationId = locationId;
        drawer.name = name.strip();
        drawer.padTypeId = type.id;
        em.persist(drawer);
      }
      drawer.fillTo = fillTo;
    }
    trail.record(
        Subject.of("pad-type", code),
        locationId,
        "level of drawer " + name.strip(),
        times.now(),
        before,
        fillTo);
  }

  /** Takes a drawer from a file. */
  @Transactional
  public void enter(Long locationId, String name, String code, int fillTo, int packs) {
    level(locationId, name, code, fillTo);
    em.flush();
    Long id =
        at(locationId).stream()
            .filter(drawer -> drawer.name().equals(name.strip()) && drawer.code().equals(code))
            .map(DrawerView::id)
            .findFirst()
            .orElseThrow(() -> new Refusal("fillTo", "A drawer's level is 1 pack or more."));
    em.find(TreatmentDrawer.class, id).packs = packs;
  }

  /**
   * A drawer was filled up to its level.
   *
   * @throws Refusal if the cupboard has not as many usable packs beside what lies in drawers
   */
  @Transactional
  public void filled(Long drawerId, Long locationId) {
    balances.holdType(typeOf(drawerId, locationId));
    TreatmentDrawer drawer = locked(drawerId, locationId);
    int missing = Math.max(0, drawer.fillTo - drawer.packs);
    int usable =
        balances.held(List.of(drawer.padTypeId), locationId).stream()
            .filter(lot -> lot.usable(locations.today(locationId)))
            .mapToInt(lot -> balances.packs(lot.id(), locationId))
            .sum();
    Number inDrawers =
        em.createQuery(
                "select coalesce(sum(d.packs), 0) from TreatmentDrawer d where d.locationId = :at"
                    + " and d.padTypeId = :type",
                Number.class)
            .setParameter("at", locationId)
            .setParameter("type", drawer.padTypeId)
            .getSingleResult();
    int spare = Math.max(0, usable - inDrawers.intValue());
    if (missing > spare) {
      throw new Refusal(
          "packs",
          "Only " + PadRow.packs(spare) + " are in the cupboard, not " + missing + ".",
          "Count the drawers, or receive what came.");
    }
    change(drawer, drawer.packs + missing, "drawer " + drawer.name + " filled", times.now());
  }

  /** Packs are taken from a drawer, in the transaction that tells the ledger. */
  void taken(Long drawerId, Long locationId, int packs, Happened happened) {
    TreatmentDrawer drawer = locked(drawerId, locationId);
    change(drawer, Math.max(0, drawer.packs - packs), "taken from drawer " + drawer.name, happened);
  }

  private void change(TreatmentDrawer drawer, int packs, String action, Happened happened) {
    trail.record(
        Subject.of("pad-type", em.find(PadType.class, drawer.padTypeId).code),
        drawer.locationId,
        action,
        happened,
        drawer.packs,
        packs);
    drawer.packs = packs;
  }

  /** What a count found, by the name of the spot and the pad type. */
  void counted(Long locationId, Map<String, Map<Long, Integer>> found) {
    em.createQuery("from TreatmentDrawer d where d.locationId = :at", TreatmentDrawer.class)
        .setParameter("at", locationId)
        .getResultList()
        .forEach(
            drawer -> {
              Map<Long, Integer> here = found.get(drawer.name);
              if (here != null) {
                change(
                    drawer,
                    here.getOrDefault(drawer.padTypeId, 0),
                    "drawer " + drawer.name + " counted",
                    times.now());
              }
            });
  }

  private Long typeOf(Long id, Long locationId) {
    TreatmentDrawer drawer = em.find(TreatmentDrawer.class, id);
    if (drawer == null || !drawer.locationId.equals(locationId)) {
      throw new NotFound("There is no such drawer here.");
    }
    // What is read next must be read under the lock.
    em.detach(drawer);
    return drawer.padTypeId;
  }

  private TreatmentDrawer locked(Long id, Long locationId) {
    TreatmentDrawer drawer = em.find(TreatmentDrawer.class, id, LockModeType.PESSIMISTIC_WRITE);
    if (drawer == null || !drawer.locationId.equals(locationId)) {
      throw new NotFound("There is no such drawer here.");
    }
    return drawer;
  }
}
