package clinic.stimshelf.shelf;

import java.util.List;

/**
 * The shelf as it stands: a board for each storage spot, a box for each unit.
 *
 * @param here units within reach
 * @param out units with somebody
 */
public record ShelfPicture(List<Board> boards, int here, int out) {

  public int total() {
    return here + out;
  }

  /** A storage spot with its units. */
  public record Board(String name, List<Box> boxes) {}

  /**
   * A unit on the board.
   *
   * @param word picks the shape
   * @param words the state as people read it
   * @param detail what to know next: until when, how long, what is wrong
   * @param out whether somebody has it, so that its place is empty
   */
  public record Box(String tag, String word, String words, String detail, boolean out) {}
}
