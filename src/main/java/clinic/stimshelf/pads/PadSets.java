package clinic.stimshelf.pads;

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
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Pads that patients use. A set belongs to one patient from the opening of its pouch until it is
 * thrown away; it never goes back to the cupboard.
 */
@Retried
@ApplicationScoped
public class PadSets {
  @Inject PadSetRows rows;
  @Inject PadLotRows lots;
  @Inject PadCatalog catalog;
  @Inject PadWear wear;
  @Inject Locations locations;
  @Inject Trail trail;
  @Inject ExpectedUses expected;

  /**
   * A patient opens a set.
   *
   * @return its number
   */
  @Transactional
  public Long open(NewPadSet wanted, Happened happened) {
    return open(wanted, false, happened);
  }

  /** The same where nobody told of it: the packs have just been handed out. */
  @Transactional
  public Long openAssumed(NewPadSet wanted, Happened happened) {
    return open(wanted, true, happened);
  }

  private Long open(NewPadSet wanted, boolean assumed, Happened happened) {
    Refusals refusals = new Refusals();
    PadType type = catalog.row(wanted.code());
    PadLot lot = wanted.lotId() == null ? null : lots.findById(wanted.lotId());
    if (wanted.lotId() != null && (lot == null || !lot.type.id.equals(type.id))) {
      refusals.add("lotId", "There is no such lot of “" + wanted.code() + "”.");
    }
    if (wanted.pads() < 1 || wanted.pads() > type.padsPerPack * 10) {
      refusals.add(
          "pads",
          "A set has from 1 to "
              + type.padsPerPack * 10
              + " pads, not "
              + wanted.pads()
              + ": ten packs at the most.");
    }
    if (type.shape == PadShape.SUPPLY) {
      refusals.add("code", "“" + wanted.code() + "” is no pad.");
    }
    if (wanted.openedOn() == null) {
      refusals.add("openedOn", "Say on which day the pouch was opened.");
    }
    refusals.throwIfAny();
    PadSet set = new PadSet();
    set.patientId = wanted.patientId();
    set.programId = wanted.programId();
    set.locationId = wanted.locationId();
    set.type = type;
    set.lot = lot;
    set.pads = wanted.pads();
    set.placement = PadStock.text(wanted.placement());
    set.openedOn = wanted.openedOn();
    set.ratedUses = type.ratedUses;
    set.openingAssumed = assumed;
    rows.persist(set);
    trail.record(
        subject(set),
        set.locationId,
        assumed ? "pads taken as opened" : "pads opened",
        happened,
        null,
        view(set, 0, set.type.ratedUses));
    return set.id;
  }

  /**
   * Counts sessions of a day on the sets that were in use on it; where a set was changed on that
   * day, on the new one. A set that ended meanwhile expects the less, the more was told of.
   *
   * @param sessions how many more; below zero takes back what was logged wrongly, zero tells that
   *     one did not take place
   */
  @Transactional
  public void told(Long patientId, Long programId, LocalDate day, int sessions, Happened happened) {
    List<PadSet> sets =
        rows.list(
            "patientId = ?1 and programId = ?2 and openedOn <= ?3 and (closedOn is null or"
                + " closedOn >= ?3) order by openedOn, id",
            patientId,
            programId,
            day);
    Map<PadType, PadWear.Lives> before = new LinkedHashMap<>();
    sets.stream()
        .filter(set -> set.outcome != null)
        .forEach(set -> before.computeIfAbsent(set.type, wear::livesNow));
    Map<String, PadSet> inUse = new HashMap<>();
    sets.forEach(set -> inUse.put(set.type.id + " " + set.placement, set));
    inUse.values().forEach(set -> set.uses = Math.max(0, set.uses + sessions));
    List<PadSet> ended = sets.stream().filter(set -> set.outcome != null).toList();
    expected.of(ended).forEach((id, uses) -> rows.findById(id).expectedUses = uses);
    rows.flush();
    before.forEach((type, lives) -> wear.tellIfPlanningChanged(type, lives, happened));
  }

  /**
   * Ends a set. Whatever the outcome, its pads are thrown away.
   *
   * @param reason needed where it is thrown away for another reason than its end
   */
  @Transactional
  public void close(
      Long setId, PadOutcome outcome, LocalDate on, String reason, Happened happened) {
    PadSet set = rows.findById(setId);
    if (set == null) {
      throw new NotFound("There is no pad set with this number.");
    }
    Refusals refusals = new Refusals();
    if (set.outcome != null) {
      refusals.add("outcome", "This set ended already: " + set.outcome.words() + ".");
    }
    if (outcome == null) {
      refusals.add("outcome", "Say how the pads are: worn, dried out, still good, lost.");
    }
    if (on == null || on.isBefore(set.openedOn)) {
      refusals.add("closedOn", "It cannot end before it was opened on " + set.openedOn + ".");
    }
    if (outcome == PadOutcome.DISCARDED && PadStock.blank(reason)) {
      refusals.add("discardReason", "Say why the pads are thrown away.");
    }
    refusals.throwIfAny();
    PadSetView before = view(set, 0, set.type.ratedUses);
    PadWear.Lives lives = wear.livesNow(set.type);
    set.outcome = outcome;
    set.closedOn = on;
    set.discardReason = PadStock.text(reason);
    set.expectedUses = expected.of(set);
    trail.record(
        subject(set),
        set.locationId,
        "pads ended",
        happened,
        before,
        view(set, 0, set.type.ratedUses));
    rows.flush();
    wear.tellIfPlanningChanged(set.type, lives, happened);
  }

  /**
   * A set ends and the patient opens the next of the same kind, at the same place.
   *
   * @param lotId of the new one, or {@code null} if nobody knows
   * @return the new one's number
   */
  @Transactional
  public Long change(
      Long setId, PadOutcome outcome, LocalDate on, String reason, Long lotId, Happened happened) {
    close(setId, outcome, on, reason, happened);
    PadSet old = rows.findById(setId);
    return open(
        new NewPadSet(
            old.patientId,
            old.programId,
            old.locationId,
            old.type.code,
            lotId,
            old.pads,
            old.placement,
            on),
        happened);
  }

  /**
   * The patient's sets in use are not used any more: they are kept for an inquiry until somebody
   * ends them.
   */
  @Transactional
  public void holdBack(Long patientId, String reason, Happened happened) {
    for (PadSet set : rows.list("patientId = ?1 and outcome is null order by id", patientId)) {
      PadSetView before = view(set, 0, set.type.ratedUses);
      set.heldReason = reason.length() <= 200 ? reason : reason.substring(0, 199) + "…";
      trail.record(
          subject(set),
          set.locationId,
          "pads held",
          happened,
          before,
          view(set, 0, set.type.ratedUses));
    }
  }

  /** The loan that brought the pads was entered wrongly: what was taken as opened was not. */
  @Transactional
  public void forgetAssumed(Long patientId, Long programId, Happened happened) {
    for (PadSet set : rows.list(OPEN_OF_PROGRAM, patientId, programId)) {
      if (set.openingAssumed && set.uses == 0) {
        trail.record(
            subject(set),
            set.locationId,
            "pads not opened",
            happened,
            view(set, 0, set.type.ratedUses),
            null);
        rows.delete(set);
      }
    }
  }

  /** Whose set it is, of which program: patient and program. */
  @Transactional
  public PadSetView byId(Long setId) {
    PadSet set = rows.findById(setId);
    if (set == null) {
      throw new NotFound("There is no pad set with this number.");
    }
    return views(List.of(set)).get(0);
  }

  /** Sets in use, of several programs at once, first opened first. */
  @Transactional
  public List<PadSetView> inUse(Collection<Long> programIds) {
    return programIds.isEmpty()
        ? List.of()
        : views(
            rows.list(
                "from PadSet s join fetch s.type left join fetch s.lot where s.programId in ?1 and"
                    + " s.outcome is null order by s.openedOn, s.id",
                programIds));
  }

  /** Sets that were opened for each of the programs, by program and pad type, ended ones too. */
  @Transactional
  public Map<Long, Map<String, Integer>> opened(Collection<Long> programIds) {
    Map<Long, Map<String, Integer>> opened = new HashMap<>();
    if (!programIds.isEmpty()) {
      rows.getEntityManager()
          .createQuery(
              "select s.programId, s.type.code, count(s) from PadSet s where s.programId in :ids"
                  + " group by s.programId, s.type.code",
              Object[].class)
          .setParameter("ids", programIds)
          .getResultList()
          .forEach(
              row ->
                  opened
                      .computeIfAbsent((Long) row[0], program -> new HashMap<>())
                      .put((String) row[1], ((Long) row[2]).intValue()));
    }
    return opened;
  }

  private List<PadSetView> views(List<PadSet> sets) {
    Map<Long, Integer> expected =
        this.expected.of(sets.stream().filter(set -> set.outcome == null).toList());
    Map<Long, Map<String, Integer>> planned = new HashMap<>();
    return sets.stream()
        .map(
            set ->
                view(
                    set,
                    expected.getOrDefault(set.id, 0),
                    planned
                        .computeIfAbsent(set.locationId, wear::plannedUses)
                        .getOrDefault(set.type.code, set.type.ratedUses)))
        .toList();
  }

  private static final String OPEN_OF_PROGRAM =
      "patientId = ?1 and programId = ?2 and outcome is null order by openedOn, id";

  /** Every set of the patient, those in use first. */
  @Transactional
  public List<PadSetView> forPatient(Long patientId) {
    return views(
        rows.list(
            "from PadSet s join fetch s.type left join fetch s.lot where s.patientId = ?1"
                + " order by case when s.outcome is null then 0 else 1 end, s.openedOn desc, s.id"
                + " desc",
            patientId));
  }

  /** The sets the patient uses for the program, first opened first. */
  @Transactional
  public List<PadSetView> inUse(Long patientId, Long programId) {
    return views(rows.list(OPEN_OF_PROGRAM, patientId, programId));
  }

  /**
   * Takes a past set from a file; a known {@code ref} changes nothing.
   *
   * @param uses sessions that were told of
   * @param expectedUses of a set that ended: sessions nobody told of that probably took place
   */
  @Transactional
  public Long enterPadSet(
      String ref,
      NewPadSet past,
      int uses,
      int expectedUses,
      PadOutcome outcome,
      LocalDate closedOn,
      Happened at) {
    PadSet known = ref == null ? null : rows.find("ref", ref).firstResult();
    if (known != null) {
      return known.id;
    }
    if (uses < 0 || uses > 100_000) {
      throw new Refusal("uses", "Uses must be from 0 to 100000, not " + uses + ".");
    }
    if (outcome != null && (closedOn == null || closedOn.isBefore(past.openedOn()))) {
      throw new Refusal("closedOn", "A set ends on or after the day it was opened.");
    }
    PadSet set = rows.findById(open(past, at));
    set.ref = ref;
    set.uses = uses;
    set.expectedUses = expectedUses;
    set.outcome = outcome;
    set.closedOn = closedOn;
    return set.id;
  }

  private static Subject subject(PadSet set) {
    return Subject.of("patient", set.patientId);
  }

  /**
   * @param expected sessions nobody told of, for a set in use; one that ended keeps its own
   */
  private static PadSetView view(PadSet set, int expected, int planned) {
    return new PadSetView(
        set.id,
        set.patientId,
        set.programId,
        set.type.code,
        set.type.name,
        set.lot == null ? null : set.lot.number,
        set.pads,
        set.placement,
        set.openedOn,
        set.openedOn.plusDays(set.type.openDays - 1L),
        set.uses,
        set.outcome == null ? expected : set.expectedUses,
        set.openingAssumed,
        planned,
        set.outcome,
        set.closedOn,
        set.discardReason,
        set.heldReason);
  }
}
