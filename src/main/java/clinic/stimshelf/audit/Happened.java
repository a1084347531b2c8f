package clinic.stimshelf.audit;

import java.time.Instant;

/**
 * When an event took place, beside the time it is recorded at.
 *
 * @param at when it took place
 * @param lateReason why it is entered only now; {@code null} if it is entered on its own day
 */
public record Happened(Instant at, String lateReason) {

  public static Happened at(Instant instant) {
    return new Happened(instant, null);
  }
}
