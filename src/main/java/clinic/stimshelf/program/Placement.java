package clinic.stimshelf.program;

import clinic.stimshelf.people.Side;

/**
 * Where pads lie.
 *
 * @param muscle key of the muscle group
 * @param side of the body
 * @param channels of the unit that it takes, 1 to 8
 * @param where the place of the pads in words, or {@code null}
 */
public record Placement(String muscle, Side side, int channels, String where) {}
