package clinic.stimshelf.shelf;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.codes.Tag;
import clinic.stimshelf.shelf.Entered.EnteredFault;
import clinic.stimshelf.shelf.Entered.EnteredInspection;
import clinic.stimshelf.shelf.Entered.EnteredPart;
import clinic.stimshelf.shelf.Entered.EnteredTest;
import clinic.stimshelf.shelf.Entered.EnteredUnit;
import clinic.stimshelf.shelf.Entered.EnteredUse;
import clinic.stimshelf.shelf.Entered.EnteredWipe;
import clinic.stimshelf.web.JustEntered;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.FlushModeType;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.EnumSet;
import java.util.Set;

/**
 * Takes in what files say already happened. A row is checked by itself and kept only if the shelf
 * still adds up; today's gates (charge, test, wipe) are not asked of the past. A name that is known
 * changes nothing. Nothing is flushed per row.
 */
@ApplicationScoped
public class ShelfEntries {
  private static final Set<UnitState> ENTERED =
      EnumSet.of(
          UnitState.READY,
          UnitState.TO_WIPE,
          UnitState.TO_INSPECT,
          UnitState.OUT_OF_SERVICE,
          UnitState.MISSING,
          UnitState.RETIRED);

  @Inject EntityManager database;
  @Inject WipeProducts products;
  @Inject JustEntered justEntered;
  @Inject EnteredSpans spans;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;

  /** A kind of unit; its code is its name. */
  @Transactional
  public Long enterKind(KindView wanted) {
    Refusals refusals = new Refusals();
    Checks.code("code", wanted.code(), refusals);
    ShelfKeeping.checkKind(wanted, refusals);
    refusals.throwIfAny();
    Long known = known("unit-kind", wanted.code(), "select k.id from UnitKind k where k.code = :v");
    if (known != null) {
      return known;
    }
    UnitKind kind = new UnitKind();
    kind.code = wanted.code();
    ShelfKeeping.write(kind, wanted);
    database.persist(kind);
    int position = 0;
    for (KindView.PartLine line : wanted.contents()) {
      KindPart part = new KindPart();
      part.kindId = kind.id;
      part.part = line.part();
      part.name = line.name().strip();
      part.essential = line.essential();
      part.position = position++;
      database.persist(part);
    }
    justEntered.add("unit-kind", kind.code, kind.id);
    told(Subject.of("unit-kind", kind.code), null, wanted);
    return kind.id;
  }

  /** A storage spot; its name within the location is its name. */
  @Transactional
  public Long enterSpot(Long locationId, String name, Integer position) {
    Refusals refusals = new Refusals();
    Checks.text("name", "A spot", name, 80, refusals);
    if (position != null && (position < 1 || position > 999)) {
      refusals.add("position", "A position is 1 to 999.");
    }
    refusals.throwIfAny();
    Long known = spotId(locationId, name.strip());
    if (known != null) {
      return known;
    }
    StorageSpot spot = new StorageSpot();
    spot.locationId = locationId;
    spot.name = name.strip();
    spot.position = position == null ? 999 : position;
    database.persist(spot);
    justEntered.add("spot-" + locationId, spot.name, spot.id);
    told(Subject.of("storage-spot", spot.id), locationId, spot.name);
    return spot.id;
  }

  /** A unit without its kit, whose parts are entered each. */
  @Transactional
  public Long enterUnit(EnteredUnit row) {
    Long known = known("unit-ref", row.ref(), "select u.id from Unit u where u.ref = :v");
    if (known != null) {
      return known;
    }
    Refusals refusals = new Refusals();
    Checks.tag("tag", row.tag(), refusals);
    Checks.text("serial", "A serial number", row.serial(), 64, refusals);
    Checks.most("state_reason", row.stateReason(), 500, refusals);
    Checks.most("owner_words", row.ownerWords(), 200, refusals);
    Purpose purpose = row.purpose() == null ? Purpose.BOTH : Purpose.byWord(row.purpose());
    if (purpose == null) {
      refusals.add("purpose", "“" + row.purpose() + "” is not home, clinic or both.");
    }
    UnitState state = row.state() == null ? UnitState.READY : UnitState.byWord(row.state());
    if (state == null || !ENTERED.contains(state)) {
      refusals.add(
          "state",
          "“"
              + row.state()
              + "” is not ready, to-wipe, to-inspect, out-of-service, missing or retired; a loan"
              + " that runs is entered as a loan.");
    }
    if (state == UnitState.OUT_OF_SERVICE && (row.stateReason() == null)) {
      refusals.add("state_reason", "Say why the unit is out of service.");
    }
    if (row.useCounter() != null && row.useCounter() < 0) {
      refusals.add("use_counter", "A use counter shows 0 or more.");
    }
    Long kindId = known("unit-kind", row.kind(), "select k.id from UnitKind k where k.code = :v");
    if (kindId == null) {
      refusals.add("kind", "There is no kind of unit “" + row.kind() + "”.");
    }
    Long spotId = row.spot() == null ? null : spotId(row.locationId(), row.spot().strip());
    if (row.spot() != null && spotId == null) {
      refusals.add("spot", "The location has no storage spot “" + row.spot() + "”.");
    }
    String key = Units.key(row.tag());
    if (known("unit-tag", key, "select u.id from Unit u where u.tagKey = :v") != null) {
      refusals.add("tag", "Another unit has the tag “" + row.tag() + "”.");
    }
    String serial = row.kind() + " " + row.serial();
    if (kindId != null
        && known(
                "unit-serial",
                serial,
                "select u.id from Unit u where concat(u.kind.code, ' ', u.serial) = :v")
            != null) {
      refusals.add("serial", "A unit of this kind has that serial number already.");
    }
    refusals.throwIfAny();
    Unit unit = new Unit();
    unit.ref = row.ref();
    unit.tag = Tag.of(row.tag()).text();
    unit.tagKey = key;
    unit.serial = row.serial().strip();
    unit.kind = database.getReference(UnitKind.class, kindId);
    unit.locationId = row.locationId();
    unit.spot = spotId == null ? null : database.getReference(StorageSpot.class, spotId);
    unit.purpose = purpose;
    unit.stateReason = row.stateReason();
    unit.nextTestOn = row.nextTestOn();
    unit.chargedAt = row.chargedAt();
    unit.useCounter = row.useCounter();
    unit.acquiredOn = row.acquiredOn();
    unit.retiredOn = row.retiredOn();
    unit.ownerWords = row.ownerWords();
    unit.comesIn(state, clock.instant());
    database.persist(unit);
    justEntered.add("unit-ref", unit.ref, unit.id);
    justEntered.add("unit-tag", key, unit.id);
    justEntered.add("unit-serial", serial, unit.id);
    told(Subject.of("unit", unit.tag), unit.locationId, UnitFacts.of(unit));
    return unit.id;
  }

  /** A part of a unit's kit. */
  @Transactional
  public Long enterPart(EnteredPart row) {
    Long known = known("kit-item", row.ref(), "select k.id from KitItem k where k.ref = :v");
    if (known != null) {
      return known;
    }
    Refusals refusals = new Refusals();
    Unit unit = unit(row.unit(), refusals);
    Part part = row.part() == null ? null : Part.byWord(row.part());
    if (part == null) {
      refusals.add("part", "“" + row.part() + "” is not a kind of part, such as lead-set.");
    }
    Checks.most("name", row.name(), 120, refusals);
    String key = row.tag() == null ? null : Units.key(row.tag());
    if (row.tag() != null) {
      Checks.tag("tag", row.tag(), refusals);
      if (known("part-tag", key, "select k.id from KitItem k where k.tagKey = :v") != null) {
        refusals.add("tag", "Another part has the tag “" + row.tag() + "”.");
      }
    }
    refusals.throwIfAny();
    KitItem item =
        Kits.item(
            unit,
            part,
            row.name() == null || row.name().isBlank() ? part.words() : row.name().strip(),
            row.tag() == null ? null : Tag.of(row.tag()).text(),
            row.essential() == null ? part.essential() : row.essential());
    item.ref = row.ref();
    item.state = Boolean.FALSE.equals(row.present()) ? PartState.MISSING : PartState.PRESENT;
    item.position = part.ordinal();
    database.persist(item);
    justEntered.add("kit-item", row.ref(), item.id);
    justEntered.add("part-tag", key, item.id);
    told(Subject.of("unit", unit.tag), unit.locationId, KitItemView.of(item));
    return item.id;
  }

  @Transactional
  public Long enterWipe(EnteredWipe row) {
    Long known = known("wipe", row.ref(), "select w.id from Wipe w where w.ref = :v");
    if (known != null) {
      return known;
    }
    Refusals refusals = new Refusals();
    Unit unit = unit(row.unit(), refusals);
    past("wiped_at", row.wipedAt(), refusals);
    String key = row.product() == null ? "" : row.product();
    WipeProducts.Product product = products.find(key).orElse(null);
    if (product == null) {
      refusals.add("product", "“" + key + "” is not one of: " + products.keys() + ".");
    }
    Checks.most("done_by", row.doneBy(), 200, refusals);
    Checks.most("note", row.note(), 500, refusals);
    refusals.throwIfAny();
    Wipe wipe = new Wipe();
    wipe.ref = row.ref();
    wipe.unitId = unit.id;
    wipe.product = product.key();
    wipe.contactMinutes = product.contactMinutes();
    wipe.wipedAt = row.wipedAt();
    wipe.countsAt = row.wipedAt().plus(Duration.ofMinutes(product.contactMinutes()));
    wipe.doneBy = someone(row.doneBy());
    wipe.note = row.note();
    database.persist(wipe);
    justEntered.add("wipe", row.ref(), wipe.id);
    told(Subject.of("unit", unit.tag), unit.locationId, row);
    return wipe.id;
  }

  @Transactional
  public Long enterInspection(EnteredInspection row) {
    Long known = known("inspection", row.ref(), "select i.id from Inspection i where i.ref = :v");
    if (known != null) {
      return known;
    }
    Refusals refusals = new Refusals();
    Unit unit = unit(row.unit(), refusals);
    past("inspected_at", row.inspectedAt(), refusals);
    if (row.passed() == null) {
      refusals.add("passed", "Say whether it passed: yes or no.");
    }
    Checks.most("done_by", row.doneBy(), 200, refusals);
    Checks.most("note", row.note(), 500, refusals);
    refusals.throwIfAny();
    Inspection inspection = new Inspection();
    inspection.ref = row.ref();
    inspection.unitId = unit.id;
    inspection.inspectedAt = row.inspectedAt();
    inspection.passed = row.passed();
    inspection.doneBy = someone(row.doneBy());
    inspection.note = row.note();
    database.persist(inspection);
    justEntered.add("inspection", row.ref(), inspection.id);
    told(Subject.of("unit", unit.tag), unit.locationId, row);
    return inspection.id;
  }

  @Transactional
  public Long enterTest(EnteredTest row) {
    Long known = known("safety-test", row.ref(), "select t.id from SafetyTest t where t.ref = :v");
    if (known != null) {
      return known;
    }
    Refusals refusals = new Refusals();
    Unit unit = unit(row.unit(), refusals);
    if (row.testedOn() == null) {
      refusals.add("tested_on", "The day of the test is missing.");
    }
    if (row.passed() == null) {
      refusals.add("passed", "Say whether it passed: yes or no.");
    }
    if (row.testedOn() != null
        && row.nextDueOn() != null
        && !row.nextDueOn().isAfter(row.testedOn())) {
      refusals.add("next_due_on", "The next test is due after this one.");
    }
    Checks.most("tester", row.tester(), 200, refusals);
    Checks.most("certificate", row.certificate(), 120, refusals);
    Checks.most("note", row.note(), 500, refusals);
    refusals.throwIfAny();
    SafetyTest test = new SafetyTest();
    test.ref = row.ref();
    test.unitId = unit.id;
    test.testedOn = row.testedOn();
    test.passed = row.passed();
    test.nextDueOn = row.nextDueOn();
    test.tester = someone(row.tester());
    test.certificate = row.certificate();
    test.note = row.note();
    database.persist(test);
    justEntered.add("safety-test", row.ref(), test.id);
    told(Subject.of("unit", unit.tag), unit.locationId, row);
    return test.id;
  }

  @Transactional
  public Long enterFault(EnteredFault row) {
    Long known = known("unit-fault", row.ref(), "select f.id from UnitFault f where f.ref = :v");
    if (known != null) {
      return known;
    }
    Refusals refusals = new Refusals();
    Unit unit = unit(row.unit(), refusals);
    past("noticed_at", row.noticedAt(), refusals);
    FaultKind kind = row.kind() == null ? FaultKind.FAULT : FaultKind.byWord(row.kind());
    if (kind == null) {
      refusals.add(
          "kind", "“" + row.kind() + "” is not fault, drop, failed-inspection or failed-test.");
    }
    Checks.text("words", "What was wrong", row.words(), 500, refusals);
    Checks.most("told_by", row.toldBy(), 200, refusals);
    refusals.throwIfAny();
    UnitFault fault = new UnitFault();
    fault.ref = row.ref();
    fault.unitId = unit.id;
    fault.faultKind = kind;
    fault.noticedAt = row.noticedAt();
    fault.words = row.words().strip();
    fault.toldBy = someone(row.toldBy());
    database.persist(fault);
    justEntered.add("unit-fault", row.ref(), fault.id);
    told(Subject.of("unit", unit.tag), unit.locationId, row);
    return fault.id;
  }

  /**
   * A use, over or running. The loan or treatment that it belongs to is entered by its own room,
   * which makes sure that it is entered once.
   *
   * @throws Refusal if somebody else had the unit at that time, or has it
   */
  @Transactional
  public void enterUse(EnteredUse row) {
    Refusals refusals = new Refusals();
    past("starts_at", row.startsAt(), refusals);
    if (row.startsAt() != null && row.endedAt() != null && row.endedAt().isBefore(row.startsAt())) {
      refusals.add("ended_at", "A use ends after it begins.");
    }
    refusals.throwIfAny();
    Unit unit = database.find(Unit.class, row.unitId());
    if (unit == null) {
      throw new NotFound("There is no such unit.");
    }
    if (!spans.take(unit.id, row.startsAt(), row.endedAt())) {
      throw new Refusal("unit", "Unit " + unit.tag + " was with somebody else within that time.");
    }
    UnitUseRow use = new UnitUseRow();
    use.unitId = unit.id;
    use.useKind = row.kind();
    use.subjectId = row.subjectId();
    use.startsAt = row.startsAt();
    use.expectedEnd = row.until();
    use.endedAt = row.endedAt();
    use.sessions = row.sessions();
    if (row.endedAt() == null) {
      use.activeUnitId = unit.id;
      unit.isOut(row.kind(), row.missing(), row.startsAt());
    }
    database.persist(use);
  }

  /** The number of the unit with the tag, entered a moment ago or long known. */
  @Transactional
  public Long unitId(String tag) {
    return known("unit-tag", Units.key(tag), "select u.id from Unit u where u.tagKey = :v");
  }

  private Unit unit(String tag, Refusals refusals) {
    Long id = tag == null ? null : unitId(tag);
    if (id == null) {
      refusals.add("unit", "There is no unit with the tag “" + (tag == null ? "" : tag) + "”.");
      return null;
    }
    return database.find(Unit.class, id);
  }

  private Long spotId(Long locationId, String name) {
    Long known = justEntered.find("spot-" + locationId, name);
    if (known != null) {
      return known;
    }
    Long found =
        database
            .createQuery(
                "select s.id from StorageSpot s where s.locationId = :at and s.name = :name",
                Long.class)
            .setParameter("at", locationId)
            .setParameter("name", name)
            .setFlushMode(FlushModeType.COMMIT)
            .getResultStream()
            .findFirst()
            .orElse(null);
    if (found != null) {
      justEntered.add("spot-" + locationId, name, found);
    }
    return found;
  }

  /** The number behind a name, asked of the database once in a transaction. */
  private Long known(String kind, String name, String query) {
    if (name == null) {
      return null;
    }
    Long known = justEntered.find(kind, name);
    if (known == null) {
      known =
          database
              .createQuery(query, Long.class)
              .setParameter("v", name)
              .setFlushMode(FlushModeType.COMMIT)
              .getResultStream()
              .findFirst()
              .orElse(null);
      justEntered.add(kind, known == null ? null : name, known);
    }
    return known;
  }

  private void past(String field, Instant at, Refusals refusals) {
    if (at == null) {
      refusals.add(field, "When it happened is missing.");
    } else if (at.isAfter(clock.instant().plus(Duration.ofDays(1)))) {
      refusals.add(field, "This lies in the future.");
    }
  }

  private static String someone(String name) {
    return name == null || name.isBlank() ? "not recorded" : name.strip();
  }

  private void told(Subject subject, Long locationId, Object after) {
    trail.record(subject, locationId, "imported", times.now(), null, after);
  }
}
