package clinic.stimshelf.shelf;

/**
 * A part of a kit.
 *
 * @param essential whether the kit may not leave without it; the others may be owed
 */
public record KitItemView(
    Long id, Part part, String name, String tag, boolean essential, PartState state) {

  public boolean present() {
    return state == PartState.PRESENT;
  }

  static KitItemView of(KitItem item) {
    return new KitItemView(item.id, item.part, item.name, item.tag, item.essential, item.state);
  }
}
