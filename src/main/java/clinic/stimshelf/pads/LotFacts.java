package clinic.stimshelf.pads;

import java.time.Instant;
import java.time.LocalDate;

/**
 * What the rules need of a lot, read past any cached entity, so that it is as of the moment its
 * balance was locked.
 */
record LotFacts(
    Long id,
    String number,
    LocalDate expiresOn,
    String udi,
    LotState state,
    String stateReason,
    Instant stateSince,
    Long padTypeId,
    String code,
    boolean consigned) {

  /** Whether packs may leave on the day, needed up to {@code neededOn}. */
  boolean usable(LocalDate neededOn) {
    return state == LotState.FREE && !expiresOn.isBefore(neededOn);
  }

  /**
   * Whether it was already held back at that time. Within a minute it counts as held: who began
   * just before the quarantine and comes through after it takes nothing any more.
   */
  boolean heldAt(Instant at) {
    return state != LotState.FREE
        && (stateSince == null || !at.isBefore(stateSince.minusSeconds(60)));
  }
}
