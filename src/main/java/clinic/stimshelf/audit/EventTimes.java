package clinic.stimshelf.audit;

import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;

/**
 * The one rule for entering an event late: before today it needs a reason, after now it is refused.
 */
@ApplicationScoped
public class EventTimes {
  /** Clocks of two machines differ; a minute ahead is still now. */
  private static final Duration TOLERANCE = Duration.ofMinutes(1);

  @Inject Clock clock;

  public Happened now() {
    return Happened.at(clock.instant());
  }

  /**
   * When the event took place.
   *
   * @param happenedAt as entered; {@code null} for now
   * @param lateReason as entered
   * @param zone of the location whose day counts
   * @param refusals takes what stands against it
   */
  public Happened of(Instant happenedAt, String lateReason, ZoneId zone, Refusals refusals) {
    Instant now = clock.instant();
    if (happenedAt == null) {
      return Happened.at(now);
    }
    if (happenedAt.isAfter(now.plus(TOLERANCE))) {
      refusals.add("happenedAt", "The time lies in the future.", "Enter when it took place.");
      return Happened.at(now);
    }
    boolean late = happenedAt.atZone(zone).toLocalDate().isBefore(now.atZone(zone).toLocalDate());
    String reason = lateReason == null || lateReason.isBlank() ? null : lateReason.strip();
    if (late && reason == null) {
      refusals.add(
          "lateReason", "This took place before today.", "Say why it is entered only now.");
    }
    return new Happened(happenedAt, late ? reason : null);
  }
}
