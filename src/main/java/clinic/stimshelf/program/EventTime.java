package clinic.stimshelf.program;

import java.time.Instant;

/**
 * When something took place, as entered.
 *
 * @param happenedAt {@code null} for now
 * @param lateReason needed where it is earlier than today
 */
public record EventTime(Instant happenedAt, String lateReason) {
  public static final EventTime NOW = new EventTime(null, null);
}
