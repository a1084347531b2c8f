package clinic.stimshelf.shelf;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.codes.Tag;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** What the fleet is made of: kinds of unit, where units stand, new units, units that move. */
@Retried
@ApplicationScoped
public class ShelfKeeping {
  @Inject Units units;
  @Inject UnitKinds kinds;
  @Inject KindParts kindParts;
  @Inject StorageSpots spots;
  @Inject UnitChanges changes;
  @Inject Kits kits;
  @Inject Locations locations;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;

  /** Every kind, by name. */
  @Transactional
  public List<KindView> kinds() {
    Map<Long, List<KindPart>> parts =
        kindParts.list("order by position, id").stream()
            .collect(Collectors.groupingBy(part -> part.kindId));
    return kinds.list("order by name, code").stream()
        .map(kind -> view(kind, parts.getOrDefault(kind.id, List.of())))
        .toList();
  }

  /**
   * @throws NotFound if no kind has the code
   */
  @Transactional
  public KindView kind(String code) {
    UnitKind kind = kindRow(code);
    return view(kind, kindParts.list("kindId = ?1 order by position, id", kind.id));
  }

  /** Adds a kind; a code that exists is refused. */
  @Transactional
  public Long addKind(KindView wanted) {
    Refusals refusals = new Refusals();
    Checks.code("code", wanted.code(), refusals);
    if (!refusals.any() && kinds.count("code", wanted.code()) > 0) {
      refusals.add("code", "Another kind has the code “" + wanted.code() + "”.");
    }
    checkKind(wanted, refusals);
    refusals.throwIfAny();
    UnitKind kind = new UnitKind();
    kind.code = wanted.code();
    write(kind, wanted);
    kinds.persist(kind);
    writeParts(kind, wanted.contents());
    trail.record(Subject.of("unit-kind", kind.code), "added", times.now(), null, wanted);
    return kind.id;
  }

  /** Changes a kind; kits that exist keep their parts. */
  @Transactional
  public void changeKind(String code, KindView wanted) {
    Refusals refusals = new Refusals();
    checkKind(wanted, refusals);
    refusals.throwIfAny();
    KindView before = kind(code);
    UnitKind kind = kindRow(code);
    write(kind, wanted);
    kindParts.delete("kindId", kind.id);
    writeParts(kind, wanted.contents());
    trail.record(Subject.of("unit-kind", code), "changed", times.now(), before, wanted);
  }

  /** The spots of a location in their order. */
  @Transactional
  public List<SpotView> spots(Long locationId) {
    return spots
        .list("locationId = ?1 and active = true order by position, name", locationId)
        .stream()
        .map(ShelfKeeping::view)
        .toList();
  }

  /**
   * @throws NotFound if there is no such spot
   */
  @Transactional
  public SpotView spot(Long id) {
    return view(spotRow(id));
  }

  /** Adds a spot, or brings back one of that name; the position orders the picture of the shelf. */
  @Transactional
  public Long addSpot(Long locationId, String name, int position) {
    Refusals refusals = new Refusals();
    Checks.text("name", "A spot", name, 80, refusals);
    refusals.throwIfAny();
    StorageSpot spot =
        spots
            .find("locationId = ?1 and name = ?2", locationId, name.strip())
            .firstResultOptional()
            .orElseGet(StorageSpot::new);
    spot.locationId = locationId;
    spot.name = name.strip();
    spot.position = position;
    spot.active = true;
    spots.persist(spot);
    trail.record(
        Subject.of("storage-spot", spot.id), locationId, "set", times.now(), null, view(spot));
    return spot.id;
  }

  /** Takes a spot out of the picture; no unit may stand there. */
  @Transactional
  public void dropSpot(Long spotId) {
    StorageSpot spot = spotRow(spotId);
    long standing = units.count("spot = ?1 and state <> ?2", spot, UnitState.RETIRED);
    if (standing > 0) {
      new Refusals()
          .add("spot", "Units stand at “" + spot.name + "”: " + standing + ".", "Move them first.")
          .throwIfAny();
    }
    spot.active = false;
    trail.record(
        Subject.of("storage-spot", spot.id),
        spot.locationId,
        "dropped",
        times.now(),
        view(spot),
        null);
  }

  /**
   * Adds a unit with its kind's kit; it is to be inspected before it serves.
   *
   * @return its tag
   */
  @Transactional
  public String addUnit(NewUnit wanted) {
    Refusals refusals = new Refusals();
    String tag =
        wanted.tag() == null || wanted.tag().isBlank() ? proposedTag() : wanted.tag().strip();
    Checks.tag("tag", tag, refusals);
    UnitKind kind =
        kinds.find("code", String.valueOf(wanted.kind())).firstResultOptional().orElse(null);
    if (kind == null) {
      refusals.add("kind", "There is no kind “" + wanted.kind() + "”.", "Add it first.");
    }
    Checks.text("serial", "A unit's serial number", wanted.serial(), 64, refusals);
    Purpose purpose = Purpose.byWord(wanted.purpose());
    if (purpose == null) {
      refusals.add("purpose", "A unit serves home, clinic or both.");
    }
    Checks.most("ownerWords", wanted.ownerWords(), 200, refusals);
    StorageSpot spot = spotAt(wanted.spotId(), wanted.locationId(), refusals);
    if (units.count("tagKey", Units.key(tag)) > 0) {
      refusals.add("tag", "Another unit has the tag " + tag + ".", "Choose another tag.");
    }
    if (kind != null
        && wanted.serial() != null
        && units.count("kind = ?1 and serial = ?2", kind, wanted.serial().strip()) > 0) {
      refusals.add("serial", "A unit of this kind has that serial number already.");
    }
    refusals.throwIfAny();
    Unit unit = new Unit();
    unit.tag = Tag.of(tag).text();
    unit.tagKey = Units.key(unit.tag);
    unit.serial = wanted.serial().strip();
    unit.kind = kind;
    unit.locationId = wanted.locationId();
    unit.spot = spot;
    unit.purpose = purpose;
    unit.state = UnitState.TO_INSPECT;
    unit.stateSince = clock.instant();
    unit.needsInspection = true;
    unit.nextTestOn = wanted.nextTestOn();
    unit.acquiredOn = wanted.acquiredOn();
    unit.useCounter = wanted.useCounter();
    unit.ownerWords = wanted.ownerWords();
    units.persist(unit);
    kits.pack(unit, kindParts.list("kindId = ?1 order by position, id", kind.id));
    trail.record(
        Subject.of("unit", unit.tag),
        unit.locationId,
        "added",
        times.now(),
        null,
        UnitFacts.of(unit));
    return unit.tag;
  }

  /** The tag that follows the highest one of ours in use. */
  @Transactional
  public String proposedTag() {
    int highest =
        units
            .getEntityManager()
            .createQuery("select u.tag from Unit u where u.tagKey like 'U-%'", String.class)
            .getResultStream()
            .flatMapToInt(tag -> Tag.of(tag).number().stream())
            .max()
            .orElse(0);
    return Tag.next(Tag.Kind.UNIT, highest).text();
  }

  /**
   * Moves a unit to another spot, or, while it is in hand and not reserved, to another location.
   *
   * @param spotId {@code null} for no particular spot
   */
  @Transactional
  public void move(String tag, Long locationId, Long spotId, Happened happened) {
    Refusals refusals = new Refusals();
    StorageSpot spot = spotAt(spotId, locationId, refusals);
    refusals.throwIfAny();
    changes.change(
        units.idOf(tag), "moved", happened, unit -> unit.move(locationId, spot, happened.at()));
  }

  /** Changes what the unit serves, its owner's words and use counter. */
  @Transactional
  public void change(
      String tag, String purpose, String ownerWords, Integer useCounter, Happened happened) {
    Refusals refusals = new Refusals();
    Purpose wanted = Purpose.byWord(purpose);
    if (wanted == null) {
      refusals.add("purpose", "A unit serves home, clinic or both.");
    }
    if (useCounter != null && useCounter < 0) {
      refusals.add("useCounter", "A use counter shows 0 or more.");
    }
    Checks.most("ownerWords", ownerWords, 200, refusals);
    refusals.throwIfAny();
    changes.change(
        units.idOf(tag),
        "changed",
        happened,
        unit -> {
          unit.purpose = wanted;
          unit.ownerWords = ownerWords;
          unit.useCounter = useCounter;
        });
  }

  private StorageSpot spotAt(Long spotId, Long locationId, Refusals refusals) {
    locations.byId(locationId);
    if (spotId == null) {
      return null;
    }
    StorageSpot spot = spots.findById(spotId);
    if (spot == null || !spot.active || !spot.locationId.equals(locationId)) {
      refusals.add("spot", "That spot is not at this location.", "Choose one that is.");
      return null;
    }
    return spot;
  }

  private StorageSpot spotRow(Long id) {
    StorageSpot spot = spots.findById(id);
    if (spot == null) {
      throw new NotFound("There is no such spot.");
    }
    return spot;
  }

  private UnitKind kindRow(String code) {
    return kinds
        .find("code", code)
        .firstResultOptional()
        .orElseThrow(() -> new NotFound("There is no kind of unit “" + code + "”."));
  }

  private void writeParts(UnitKind kind, List<KindView.PartLine> lines) {
    int position = 0;
    for (KindView.PartLine line : lines) {
      KindPart part = new KindPart();
      part.kindId = kind.id;
      part.part = line.part();
      part.name = line.name().strip();
      part.essential = line.essential();
      part.position = position++;
      kindParts.persist(part);
    }
  }

  static void checkKind(KindView wanted, Refusals refusals) {
    Checks.text("name", "A kind", wanted.name(), 120, refusals);
    Checks.code("connector", wanted.connector(), refusals);
    if (wanted.channels() < 1 || wanted.channels() > 16) {
      refusals.add("channels", "A unit has 1 to 16 channels, not " + wanted.channels() + ".");
    }
    if (wanted.output() == null) {
      refusals.add("output", "Its output is shown in milliamperes or as a level.");
    }
    if (wanted.chargeDays() != null && (wanted.chargeDays() < 1 || wanted.chargeDays() > 365)) {
      refusals.add("chargeDays", "A charge lapses after 1 to 365 days, or is left blank.");
    }
    Checks.most("cellType", wanted.cellType(), 80, refusals);
    if (wanted.price() != null
        && (wanted.price().signum() < 0
            || wanted.price().precision() - wanted.price().scale() > 8)) {
      refusals.add("price", "A price is 0 or more, below 100 million.");
    }
    if (wanted.contents().size() > 30) {
      refusals.add("contents", "A kit has at most 30 parts.");
    }
    for (KindView.PartLine line : wanted.contents()) {
      Checks.text("contents", "A part", line.name(), 120, refusals);
    }
  }

  static void write(UnitKind kind, KindView wanted) {
    kind.name = wanted.name().strip();
    kind.channels = wanted.channels();
    kind.connector = wanted.connector();
    kind.outputScale = wanted.output();
    kind.chargeDays = wanted.chargeDays();
    kind.cellType = wanted.cellType();
    kind.price = wanted.price();
    kind.lendsOut = wanted.lendsOut();
  }

  private static KindView view(UnitKind kind, List<KindPart> parts) {
    return new KindView(
        kind.id,
        kind.code,
        kind.name,
        kind.channels,
        kind.connector,
        kind.outputScale,
        kind.chargeDays,
        kind.cellType,
        kind.price,
        kind.lendsOut,
        parts.stream()
            .map(part -> new KindView.PartLine(part.part, part.name, part.essential))
            .toList());
  }

  private static SpotView view(StorageSpot spot) {
    return new SpotView(spot.id, spot.locationId, spot.name, spot.position, spot.active);
  }
}
