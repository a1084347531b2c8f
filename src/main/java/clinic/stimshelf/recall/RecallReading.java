package clinic.stimshelf.recall;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.codes.SerialRange;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.LotState;
import clinic.stimshelf.pads.LotStock;
import clinic.stimshelf.pads.PadLots;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.recall.RecallView.Progress;
import clinic.stimshelf.recall.RecallView.RecalledUnit;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.ShelfKeeping;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.Reason;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** Puts together what a recall says: whom it touched, who knows, what is held. */
@ApplicationScoped
class RecallReading {
  private static final Set<UnitState> NEED_NO_HOLD =
      EnumSet.of(UnitState.OUT_OF_SERVICE, UnitState.RETIRED, UnitState.MISSING);

  @Inject RecallContactRows contacts;
  @Inject RecallExcuseRows excuses;
  @Inject WhoHadIt whoHadIt;
  @Inject Shelf shelf;
  @Inject ShelfKeeping kinds;
  @Inject PadLots lots;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject EntityManager em;

  /** The units that it is about, by number: as they are now, so that one entered late is among. */
  List<Long> unitIds(Recall recall) {
    return switch (recall.target) {
      case LOT -> List.of();
      case UNIT -> List.of(recall.unitId);
      case SERIALS -> inRange(recall.kindId, new SerialRange(recall.serialFrom, recall.serialTo));
    };
  }

  /** Units of the kind with a serial number in the range, by number. */
  List<Long> inRange(Long kindId, SerialRange range) {
    return em.createQuery(
            "select u.id, u.serial from Unit u where u.kind.id = :kind order by u.id",
            Object[].class)
        .setParameter("kind", kindId)
        .getResultStream()
        .filter(row -> range.contains((String) row[1]))
        .map(row -> (Long) row[0])
        .toList();
  }

  /** Everybody at every location, most urgent first. */
  List<RecallPerson> people(Recall recall, ZoneId zone) {
    List<HeldIt> times =
        recall.target == RecallTarget.LOT
            ? whoHadIt.ofLot(recall.lotId, zone)
            : whoHadIt.ofUnits(unitIds(recall), zone);
    Map<Long, List<HeldIt>> byPatient =
        times.stream()
            .collect(
                Collectors.groupingBy(HeldIt::patientId, LinkedHashMap::new, Collectors.toList()));
    Map<Long, List<RecallContact>> tried =
        contacts.list("recallId = ?1 order by happenedAt desc, id desc", recall.id).stream()
            .collect(Collectors.groupingBy(contact -> contact.patientId));
    Map<Long, RecallExcuse> left =
        excuses.list("recallId", recall.id).stream()
            .collect(Collectors.toMap(excuse -> excuse.patientId, excuse -> excuse));
    // Whose loan was voided since had it no more, but what was said to them stays.
    Set<Long> everybody = new TreeSet<>(byPatient.keySet());
    everybody.addAll(tried.keySet());
    Map<Long, PatientView> known = patients.byIds(everybody);
    Map<Long, String> codes =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, LocationView::code));
    return everybody.stream()
        .map(
            id ->
                person(
                    known.get(id),
                    codes,
                    byPatient.getOrDefault(id, List.of()),
                    tried.getOrDefault(id, List.of()),
                    left.get(id)))
        .sorted(
            Comparator.comparingInt(RecallPerson::urgency).thenComparing(RecallPerson::chartNumber))
        .toList();
  }

  private static RecallPerson person(
      PatientView who,
      Map<Long, String> codes,
      List<HeldIt> times,
      List<RecallContact> tried,
      RecallExcuse left) {
    return new RecallPerson(
        String.valueOf(who.id()),
        who.chartNumber(),
        who.name(),
        who.phone(),
        who.email(),
        who.address(),
        who.guardianName(),
        who.diedOn() != null,
        who.language(),
        who.interpreter(),
        codes.get(who.locationId()),
        times.stream().map(HeldIt::still).min(Comparator.naturalOrder()).orElse(StillHas.NO),
        times,
        tried.stream().anyMatch(one -> one.outcome == ReachOutcome.REACHED),
        tried.stream().map(RecallContact::view).toList(),
        left == null ? null : new RecallPerson.Excuse(left.reason, left.recordedAt, left.byName));
  }

  static Progress progress(List<RecallPerson> people) {
    int reached = (int) people.stream().filter(RecallPerson::reached).count();
    int excused = (int) people.stream().filter(one -> !one.reached() && one.settled()).count();
    return new Progress(
        people.size(),
        reached,
        excused,
        people.size() - reached - excused,
        (int) people.stream().filter(one -> one.still() == StillHas.YES).count());
  }

  RecallView view(Recall recall, ZoneId zone) {
    List<RecallPerson> people = people(recall, zone);
    Set<String> mine =
        locations.all().stream()
            .filter(place -> signedIn.mayActAt(place.id()))
            .map(LocationView::code)
            .collect(Collectors.toSet());
    List<RecallPerson> here = people.stream().filter(one -> mine.contains(one.location())).toList();
    int elsewhere =
        (int)
            people.stream().filter(one -> !mine.contains(one.location()) && !one.settled()).count();
    List<Long> everywhere = locations.all().stream().map(LocationView::id).toList();
    LotStock lot = recall.lotId == null ? null : lots.byId(recall.lotId, everywhere);
    List<LotStock.At> drawers =
        recall.lotId == null ? List.of() : lots.inDrawers(recall.lotId, everywhere);
    List<UnitView> units =
        shelf.byIds(unitIds(recall)).values().stream()
            .sorted(Comparator.comparing(UnitView::tag))
            .toList();
    return new RecallView(
        String.valueOf(recall.id),
        recall.target,
        about(recall),
        recall.lotId == null ? null : String.valueOf(recall.lotId),
        kindCode(recall),
        recall.serialFrom,
        recall.serialTo,
        recall.unitId == null ? null : units.get(0).tag(),
        recall.reason,
        recall.reference,
        recall.begunAt,
        recall.begunBy,
        recall.state,
        recall.closedAt,
        recall.closedBy,
        recall.closedWords,
        lot,
        drawers,
        recall.drawersDoneAt == null
            ? null
            : new RecallView.Checked(
                recall.drawersDoneAt, recall.drawersDoneBy, recall.drawersWords),
        units.stream().map(RecallReading::unit).toList(),
        progress(people),
        here,
        elsewhere,
        against(recall, here, elsewhere, lot, drawers, units).stream().map(Reason::words).toList(),
        recall.version);
  }

  /** Everything that stands against closing it, each with its cure. */
  List<Reason> against(Recall recall, ZoneId zone) {
    List<RecallPerson> people = people(recall, zone);
    List<Long> everywhere = locations.all().stream().map(LocationView::id).toList();
    return against(
        recall,
        people,
        0,
        recall.lotId == null ? null : lots.byId(recall.lotId, everywhere),
        recall.lotId == null ? List.of() : lots.inDrawers(recall.lotId, everywhere),
        List.copyOf(shelf.byIds(unitIds(recall)).values()));
  }

  private static List<Reason> against(
      Recall recall,
      List<RecallPerson> people,
      int elsewhere,
      LotStock lot,
      List<LotStock.At> drawers,
      List<UnitView> units) {
    List<Reason> reasons = new ArrayList<>();
    for (RecallPerson one : people) {
      if (!one.settled()) {
        reasons.add(
            new Reason(
                "people",
                "Chart "
                    + one.chartNumber()
                    + " at "
                    + one.location()
                    + ": "
                    + one.standing()
                    + ".",
                "Reach them, or say why they cannot be reached."));
      }
    }
    if (elsewhere > 0) {
      reasons.add(
          new Reason(
              "people",
              elsewhere
                  + (elsewhere == 1 ? " person" : " people")
                  + " at locations where you don’t work: not reached.",
              "Ask the manager there."));
    }
    if (lot != null && lot.state() == LotState.FREE) {
      reasons.add(new Reason("lot", "The lot is not held back.", "Hold it on its page."));
    }
    if (!drawers.isEmpty() && recall.drawersDoneAt == null) {
      reasons.add(
          new Reason(
              "drawers",
              "Packs of it went into drawers in the last 60 days.",
              "Look the drawers through and enter what was found."));
    }
    for (UnitView unit : units) {
      if (!NEED_NO_HOLD.contains(unit.state())) {
        reasons.add(
            new Reason(
                "units",
                "Unit " + unit.tag() + " is " + unit.state().words() + ", not held.",
                "Hold all units again."));
      }
    }
    return reasons;
  }

  private static RecalledUnit unit(UnitView unit) {
    return new RecalledUnit(
        unit.tag(),
        unit.serial(),
        unit.location(),
        unit.state().word(),
        NEED_NO_HOLD.contains(unit.state()),
        unit.use() != null || unit.state() == UnitState.MISSING);
  }

  /** What is recalled, in words. */
  String about(Recall recall) {
    return switch (recall.target) {
      case LOT -> {
        LotStock lot = lots.byId(recall.lotId, List.of(-1L));
        yield "Pads " + lot.code() + ", lot " + lot.lot();
      }
      case UNIT -> "Unit " + shelf.byId(recall.unitId).tag();
      case SERIALS ->
          "Units of the kind "
              + kindCode(recall)
              + ", serial numbers "
              + recall.serialFrom
              + " to "
              + recall.serialTo;
    };
  }

  private String kindCode(Recall recall) {
    return recall.kindId == null
        ? null
        : kinds.kinds().stream()
            .filter(kind -> kind.id().equals(recall.kindId))
            .findFirst()
            .orElseThrow()
            .code();
  }
}
