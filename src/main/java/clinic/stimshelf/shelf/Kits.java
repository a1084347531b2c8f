package clinic.stimshelf.shelf;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.codes.Tag;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The parts that belong to units: lead sets, charger, bag, manual, each with its own tag. */
@Retried
@ApplicationScoped
public class Kits {
  @Inject Units units;
  @Inject KitItems items;
  @Inject Trail trail;

  /**
   * A part to put into a kit.
   *
   * @param tag {@code null} for one derived from the unit's
   */
  public record NewPart(Part part, String name, String tag, boolean essential) {}

  /** The unit that a part's tag belongs to. */
  @Transactional
  public Optional<Long> unitOfPart(String tag) {
    return items
        .find("tagKey = ?1 and state <> ?2", Units.key(tag), PartState.REMOVED)
        .firstResultOptional()
        .map(item -> item.unitId);
  }

  /** Puts a part into the unit's kit. */
  @Transactional
  public KitItemView add(String unitTag, NewPart wanted, Happened happened) {
    Unit unit = units.locked(units.idOf(unitTag));
    List<KitItem> kit = items.list("unitId", unit.id);
    String tag =
        wanted.tag() == null || wanted.tag().isBlank()
            ? freeTag(unit, wanted.part(), kit)
            : wanted.tag().strip();
    Refusals refusals = new Refusals();
    Checks.text("name", "A part", wanted.name(), 120, refusals);
    Checks.tag("tag", tag, refusals);
    if (!refusals.any() && tagTaken(tag)) {
      refusals.add("tag", "The tag " + tag + " hangs on something else.", "Choose another tag.");
    }
    refusals.throwIfAny();
    KitItem item =
        item(unit, wanted.part(), wanted.name().strip(), Tag.of(tag).text(), wanted.essential());
    item.position = kit.size();
    items.persist(item);
    tell(unit, "part added", happened, null, item);
    return KitItemView.of(item);
  }

  /** A part is not there. The kit may leave without it only if it is not essential. */
  @Transactional
  public void missing(Long itemId, Happened happened) {
    set(itemId, PartState.MISSING, "part missing", happened);
  }

  /** A part is there again. */
  @Transactional
  public void back(Long itemId, Happened happened) {
    set(itemId, PartState.PRESENT, "part back", happened);
  }

  /** A part no longer belongs to the kit: worn, or put elsewhere. */
  @Transactional
  public void remove(Long itemId, Happened happened) {
    set(itemId, PartState.REMOVED, "part removed", happened);
  }

  void pack(Unit unit, List<KindPart> parts) {
    Map<Part, Integer> counts = new HashMap<>();
    List<KitItem> kit = new ArrayList<>();
    for (KindPart part : parts) {
      int number = counts.merge(part.part, 1, Integer::sum);
      String tag = unit.tag + "-" + part.part.mark() + number;
      boolean usable = tag.length() <= 32 && !tagTaken(tag);
      KitItem item = item(unit, part.part, part.name, usable ? tag : null, part.essential);
      item.position = part.position;
      kit.add(item);
    }
    items.persist(kit);
  }

  static KitItem item(Unit unit, Part part, String name, String tag, boolean essential) {
    KitItem item = new KitItem();
    item.unitId = unit.id;
    item.part = part;
    item.name = name;
    item.tag = tag;
    item.tagKey = tag == null ? null : Units.key(tag);
    item.essential = essential;
    return item;
  }

  private void set(Long itemId, PartState state, String action, Happened happened) {
    KitItem item = items.findById(itemId);
    if (item == null || item.state == PartState.REMOVED) {
      throw new NotFound("There is no such part in a kit.");
    }
    if (item.state == state) {
      return;
    }
    Unit unit = units.locked(item.unitId);
    KitItemView before = KitItemView.of(item);
    item.state = state;
    if (state == PartState.REMOVED) {
      item.tag = null;
      item.tagKey = null;
    }
    tell(unit, action, happened, before, item);
  }

  private void tell(
      Unit unit, String action, Happened happened, KitItemView before, KitItem after) {
    trail.record(
        Subject.of("unit", unit.tag),
        unit.locationId,
        action,
        happened,
        before,
        KitItemView.of(after));
  }

  private boolean tagTaken(String tag) {
    String key = Units.key(tag);
    return items.count("tagKey", key) > 0 || units.count("tagKey", key) > 0;
  }

  private String freeTag(Unit unit, Part part, List<KitItem> kit) {
    for (int number = 1; number <= kit.size() + 1; number++) {
      String tag = unit.tag + "-" + part.mark() + number;
      if (!tagTaken(tag)) {
        return tag;
      }
    }
    return unit.tag + "-" + part.mark() + (kit.size() + 2);
  }
}
