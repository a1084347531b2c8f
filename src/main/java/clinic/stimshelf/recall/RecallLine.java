package clinic.stimshelf.recall;

import java.time.Instant;

/** A recall in a list. */
public record RecallLine(
    String id,
    RecallTarget target,
    String about,
    String reason,
    String reference,
    Instant begunAt,
    RecallState state,
    Instant closedAt,
    RecallView.Progress progress) {

  public boolean open() {
    return state == RecallState.OPEN;
  }
}
