package clinic.stimshelf.people;

import java.util.List;

/**
 * A part of the body that a screening holds for.
 *
 * @param limb to which it belongs: arm, leg or trunk
 * @param near places close to it about which more is asked: head, neck, chest, trunk, pelvis
 */
public record BodyRegion(
    String key, String english, String spanish, String limb, List<String> near) {

  /** The region with its side, for instance "left thigh" or "thigh, both sides". */
  public String words(Side side) {
    return side == Side.BOTH ? english + ", both sides" : side.word() + " " + english;
  }
}
