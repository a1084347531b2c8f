package clinic.stimshelf.shelf;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.IfMatch;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.TryAgain;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.hibernate.exception.ConstraintViolationException;

/**
 * The units and who uses them. A unit is in one place: every use is a row that holds the unit's
 * number while it runs, and the database lets only one row hold it. Each change holds the unit's
 * row and leaves a line in the trail.
 */
@Retried
@ApplicationScoped
public class Shelf {
  /** Field of the reason that a safety test falls inside a loan: a booked day cures it. */
  public static final String BRING_IN = "bringInOn";

  @Inject Units units;
  @Inject UnitUses uses;
  @Inject UnitChanges changes;
  @Inject ShelfViews views;
  @Inject Trail trail;
  @Inject FreeUnits free;
  @Inject Locations locations;
  @Inject Clock clock;

  /**
   * @throws NotFound if no unit has the tag
   */
  @Transactional
  public UnitView byTag(String tag) {
    return byId(units.idOf(tag));
  }

  /**
   * @throws NotFound if there is no such unit
   */
  @Transactional
  public UnitView byId(Long id) {
    return views.of(units.byId(id));
  }

  /** The units with the maker's serial number; makers may have given it twice. */
  @Transactional
  public List<UnitView> bySerial(String serial) {
    return views.of(units.bySerial(serial));
  }

  /** The units by number; what is unknown is left out. */
  @Transactional
  public Map<Long, UnitView> byIds(Collection<Long> ids) {
    return views.of(units.byIds(List.copyOf(ids))).stream()
        .collect(Collectors.toMap(UnitView::id, Function.identity()));
  }

  /** Every unit of a location that is not retired, by tag. */
  @Transactional
  public List<UnitView> at(Long locationId) {
    return views.of(units.at(locationId)).stream()
        .filter(unit -> unit.state() != UnitState.RETIRED)
        .toList();
  }

  /** Every unit of the locations, retired ones last, by tag. */
  @Transactional
  public List<UnitView> fleet(Collection<Long> locationIds) {
    return views.of(units.fleet(locationIds)).stream()
        .sorted(Comparator.comparing(unit -> unit.state() == UnitState.RETIRED))
        .toList();
  }

  /**
   * Units that could serve, best first: ready before reserved before still to be made ready before
   * away; then charged, with as few channels more than needed as can be, with the later test.
   *
   * @param connectors that fit; empty if any does
   * @param purpose home or clinic
   */
  @Transactional
  public List<UnitView> candidates(
      Long locationId, int channels, Set<String> connectors, String purpose) {
    return free.candidates(locationId, channels, connectors, Purpose.byWord(purpose));
  }

  /** Holds a ready unit for a request. */
  @Transactional
  public void reserve(Long unitId, Long requestId, Happened happened) {
    reserve(unitId, UseKind.LOAN, requestId, happened);
  }

  /**
   * Holds a ready unit for a request or a treatment.
   *
   * @throws InUse if it is used by or reserved for another
   * @throws Refusal if its state or its safety test stand against it
   */
  @Transactional
  public void reserve(Long unitId, UseKind kind, Long forId, Happened happened) {
    changes.change(
        unitId,
        "reserved",
        happened,
        unit -> {
          if (unit.isReservedFor(kind, forId)) {
            return;
          }
          refuseIfTaken(unit, null, null, happened.at(), null, List.of());
          unit.reserve(kind, forId, locations.today(unit.locationId), happened.at());
        });
  }

  /**
   * Holds a ready unit by hand, for something that has no request.
   *
   * @param words what for, without a name or diagnosis
   */
  @Transactional
  public void hold(Long unitId, String words, Happened happened) {
    Refusals refusals = new Refusals();
    Checks.text("for", "What it is held for", words, 200, refusals);
    refusals.throwIfAny();
    changes.change(
        unitId,
        "held",
        happened,
        unit -> {
          refuseIfTaken(unit, null, null, happened.at(), null, List.of());
          unit.reserve(null, null, locations.today(unit.locationId), happened.at());
          unit.stateReason = words.strip();
        });
  }

  /** Frees a reserved unit. */
  @Transactional
  public void release(Long unitId, Happened happened) {
    changes.change(unitId, "released", happened, unit -> unit.release(happened.at()));
  }

  /** As {@link #begin(Long, UseKind, Long, Long, Instant, Instant, Happened)}, not reserved. */
  @Transactional
  public UnitUse begin(
      Long unitId,
      UseKind kind,
      Long subjectId,
      Instant startsAt,
      Instant until,
      Happened happened) {
    return begin(unitId, kind, subjectId, null, startsAt, until, happened);
  }

  /**
   * Gives the unit to a loan or a treatment.
   *
   * @param subjectId number of the loan or treatment
   * @param reservedId the request or treatment that it is reserved for, or {@code null}
   * @param until when the use is expected to end, or {@code null}
   * @throws InUse if another's use or reservation is the sole reason: says since and until when,
   *     and what is free instead
   * @throws Refusal with every reason otherwise
   */
  @Transactional
  public UnitUse begin(
      Long unitId,
      UseKind kind,
      Long subjectId,
      Long reservedId,
      Instant startsAt,
      Instant until,
      Happened happened) {
    UnitUseRow row = new UnitUseRow();
    changes.change(
        unitId,
        kind == UseKind.LOAN ? "lent" : "treatment begun",
        happened,
        unit -> {
          Refusals others = new Refusals();
          LocalDate today = locations.today(unit.locationId);
          if (kind == UseKind.LOAN) {
            Leaving.checkKit(unit, views.kit(unitId), today, happened.at(), others);
          } else {
            unit.checkTest(today, others);
          }
          refuseIfTaken(unit, kind, reservedId, startsAt, until, others.reasons());
          Leaving.checkState(unit, happened.at(), others);
          others.throwIfAny();
          unit.begin(kind, happened.at());
          row.unitId = unitId;
          row.activeUnitId = unitId;
          row.useKind = kind;
          row.subjectId = subjectId;
          row.startsAt = startsAt;
          row.expectedEnd = until;
          insert(row);
        });
    return UnitUse.of(row);
  }

  /**
   * Ends the use.
   *
   * @param next to wipe as a rule; out of service or missing otherwise
   * @throws Refusal if the unit is not in that use
   */
  @Transactional
  public void end(Long unitId, UseKind kind, Long subjectId, Happened happened, UnitState next) {
    changes.change(
        unitId,
        kind == UseKind.LOAN ? "came back" : "treatment ended",
        happened,
        unit -> {
          UnitUseRow use = running(unit, kind, subjectId);
          unit.end(kind, next, happened.at());
          use.end(happened.at());
          uses.flush();
        });
  }

  /** The day on which a loan or treatment is expected to end changed. */
  @Transactional
  public void expect(Long unitId, UseKind kind, Long subjectId, Instant until, Happened happened) {
    Unit unit = units.locked(unitId);
    UnitUseRow use = running(unit, kind, subjectId);
    UnitUse before = UnitUse.of(use);
    use.expectedEnd = until;
    trail.record(
        Subject.of("unit", unit.tag),
        unit.locationId,
        "end changed",
        happened,
        before,
        UnitUse.of(use));
  }

  /** The use was entered by mistake: the unit never left the shelf. */
  @Transactional
  public void cancelUse(Long unitId, UseKind kind, Long subjectId, Happened happened) {
    changes.change(
        unitId,
        "use voided",
        happened,
        unit -> {
          UnitUseRow use = running(unit, kind, subjectId);
          unit.cancelUse(happened.at());
          use.cancel();
          uses.flush();
        });
  }

  /** The end of a use was entered by mistake: the use still runs. */
  @Transactional
  public void resumeUse(Long unitId, UseKind kind, Long subjectId, Happened happened) {
    changes.change(
        unitId,
        "end of use voided",
        happened,
        unit -> {
          refuseIfTaken(unit, null, null, happened.at(), null, List.of());
          UnitUseRow use =
              uses.find(
                      "unitId = ?1 and useKind = ?2 and subjectId = ?3 and voided = false"
                          + " order by startsAt desc",
                      unitId,
                      kind,
                      subjectId)
                  .firstResultOptional()
                  .orElseThrow(() -> notInThatUse(unit));
          unit.resumeUse(kind, happened.at());
          use.endedAt = null;
          use.activeUnitId = unitId;
          uses.flush();
        });
  }

  /**
   * Counts sessions, for faults per 100 sessions, with the unit that was in use then: a swap may
   * have changed it.
   *
   * @param before a time after the sessions and before the next day
   * @param more below zero takes back
   */
  @Transactional
  public void countSessions(UseKind kind, Long subjectId, Instant before, int more) {
    uses.find(
            "useKind = ?1 and subjectId = ?2 and voided = false and startsAt < ?3 order by startsAt"
                + " desc, id desc",
            kind,
            subjectId,
            before)
        .firstResultOptional()
        .ifPresent(
            use -> use.sessions = Math.max(0, (use.sessions == null ? 0 : use.sessions) + more));
  }

  /**
   * Everything about the unit that stands against a loan, each with its cure. The reason with the
   * field {@link #BRING_IN} is cured by a booked day; every other must be gone before it leaves.
   *
   * @param dueOn the loan's due day, or {@code null} if not known yet
   * @param now {@code null} for the time it is
   */
  @Transactional
  public List<Reason> whyNotReadyToLeave(Long unitId, LocalDate dueOn, Instant now) {
    Unit unit = units.byId(unitId);
    Instant when = now == null ? clock.instant() : now;
    LocalDate today = LocalDate.ofInstant(when, locations.zone(unit.locationId));
    Refusals refusals = new Refusals();
    uses.running(unitId)
        .ifPresentOrElse(
            use -> refusals.add("state", whoHasIt(unit, use), free.words(unit, when, null)),
            () -> Leaving.checkState(unit, when, refusals));
    Leaving.checkKit(unit, views.kit(unitId), today, when, refusals);
    Leaving.checkTestWithin(unit, dueOn, today, refusals);
    return refusals.reasons();
  }

  /** Whether somebody has the unit at this moment. */
  @Transactional
  public boolean inUse(Long unitId) {
    return uses.running(unitId).isPresent();
  }

  /**
   * Runs a change only if nobody changed the unit since it was read.
   *
   * @param version as read, or {@code null} to change it whatever it is
   * @throws clinic.stimshelf.web.Stale if it has another version now
   */
  @Transactional
  public void inVersion(String tag, Integer version, Runnable change) {
    if (version != null) {
      Unit unit = units.locked(units.idOf(tag));
      IfMatch.require(version, unit.version, "Unit " + unit.tag);
    }
    change.run();
  }

  /**
   * The same for several units at once, with as many questions to the database as for one. What
   * depends on the loan's due day is left out.
   */
  @Transactional
  public Map<Long, List<Reason>> whyNotReadyToLeave(Collection<Long> unitIds, Instant now) {
    List<Long> ids = List.copyOf(unitIds);
    Map<Long, UnitUseRow> running = uses.running(ids);
    Map<Long, List<KitItem>> kits = views.kits(ids);
    Map<Long, List<Reason>> reasons = new HashMap<>();
    for (Unit unit : units.byIds(ids)) {
      LocalDate today = LocalDate.ofInstant(now, locations.zone(unit.locationId));
      Refusals refusals = new Refusals();
      UnitUseRow use = running.get(unit.id);
      if (use == null) {
        Leaving.checkState(unit, now, refusals);
      } else {
        refusals.add("state", whoHasIt(unit, use));
      }
      Leaving.checkKit(unit, kits.getOrDefault(unit.id, List.of()), today, now, refusals);
      reasons.put(unit.id, refusals.reasons());
    }
    return reasons;
  }

  private UnitUseRow running(Unit unit, UseKind kind, Long subjectId) {
    return uses.running(unit.id)
        .filter(use -> use.isFor(kind, subjectId))
        .orElseThrow(() -> notInThatUse(unit));
  }

  private static Refusal notInThatUse(Unit unit) {
    return new Refusal(
        "unit",
        "Unit " + unit.tag + " is " + unit.state.words() + ", not in the use that is meant.",
        "Scan its tag to see where it is.");
  }

  private void refuseIfTaken(
      Unit unit, UseKind kind, Long reservedId, Instant from, Instant until, List<Reason> others) {
    String taken =
        uses.running(unit.id)
            .map(use -> whoHasIt(unit, use))
            .orElseGet(
                () ->
                    unit.state == UnitState.RESERVED && !unit.isReservedFor(kind, reservedId)
                        ? reservedWords(unit)
                        : null);
    if (taken == null) {
      return;
    }
    String instead = free.words(unit, from, until);
    if (others.isEmpty()) {
      throw new InUse(taken + " " + instead);
    }
    Refusals all = new Refusals().add("state", taken, instead);
    all.addAll(others).throwIfAny();
  }

  private static String reservedWords(Unit unit) {
    if (unit.reservedKind == null) {
      return "Unit " + unit.tag + " is held: " + unit.stateReason + ".";
    }
    return "Unit "
        + unit.tag
        + " is reserved for another "
        + (unit.reservedKind == UseKind.LOAN ? "request." : "treatment.");
  }

  private String whoHasIt(Unit unit, UnitUseRow use) {
    ZoneId zone = locations.zone(unit.locationId);
    return "Unit "
        + unit.tag
        + (use.useKind == UseKind.LOAN ? " is on loan since " : " is in a treatment since ")
        + FreeUnits.time(use.startsAt, zone)
        + (use.expectedEnd == null ? "." : " until " + FreeUnits.time(use.expectedEnd, zone) + ".");
  }

  /** The unique key is the second line behind the row lock; whoever meets it looks again. */
  private void insert(UnitUseRow row) {
    try {
      uses.persistAndFlush(row);
    } catch (ConstraintViolationException taken) {
      throw new TryAgain("Another use of the unit came first.", taken);
    }
  }
}
