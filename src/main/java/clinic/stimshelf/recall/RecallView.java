package clinic.stimshelf.recall;

import clinic.stimshelf.pads.LotStock;
import java.time.Instant;
import java.util.List;

/**
 * A recall with everybody it touched.
 *
 * @param about what is recalled, in words
 * @param lot the lot and where its packs are, or {@code null} if it is about units
 * @param drawers packs of it that may lie in drawers, by location
 * @param drawersChecked who looked the drawers through, or {@code null}
 * @param units the units it is about; none for a lot
 * @param people everybody at the locations of whoever asks, most urgent first
 * @param elsewhere people at other locations who are not settled
 * @param against what stands against closing it now
 */
public record RecallView(
    String id,
    RecallTarget target,
    String about,
    String lotId,
    String kind,
    String serialFrom,
    String serialTo,
    String unitTag,
    String reason,
    String reference,
    Instant begunAt,
    String begunBy,
    RecallState state,
    Instant closedAt,
    String closedBy,
    String closedWords,
    LotStock lot,
    List<LotStock.At> drawers,
    Checked drawersChecked,
    List<RecalledUnit> units,
    Progress progress,
    List<RecallPerson> people,
    int elsewhere,
    List<String> against,
    int version) {

  /** Who looked through the drawers, and what was found. */
  public record Checked(Instant at, String by, String words) {}

  /**
   * A unit that is recalled.
   *
   * @param held whether it is off the shelf: out of service or retired
   * @param away whether somebody still has it
   */
  public record RecalledUnit(
      String tag, String serial, String location, String state, boolean held, boolean away) {}

  /** How far it is, over all locations. */
  public record Progress(int people, int reached, int excused, int open, int stillHave) {

    /** Reached or left with a reason, of a hundred; 100 where nobody had it. */
    public int percent() {
      return people == 0 ? 100 : (int) Math.floor(100.0 * (reached + excused) / people);
    }

    /** Length of the part of a bar of 1000 that stands for so many people. */
    public int share(int some) {
      return people == 0 ? 0 : (int) Math.round(1000.0 * some / people);
    }
  }

  public boolean open() {
    return state == RecallState.OPEN;
  }
}
