package clinic.stimshelf.appointments;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/** How often each calendar link is read; a few devices that look every few minutes are plenty. */
@ApplicationScoped
class CalendarReads {
  static final int MOST = 60;
  static final Duration WINDOW = Duration.ofMinutes(10);

  @Inject Clock clock;

  private record Count(Instant since, int reads) {}

  private final Map<Long, Count> counts = new ConcurrentHashMap<>();

  /** Counts a reading and gives how long to wait if it is one too many. */
  Optional<Duration> tooMany(Long linkId) {
    Instant now = clock.instant();
    Count count =
        counts.compute(
            linkId,
            (id, known) ->
                known == null || !now.isBefore(known.since().plus(WINDOW))
                    ? new Count(now, 1)
                    : new Count(known.since(), known.reads() + 1));
    return count.reads() > MOST
        ? Optional.of(Duration.between(now, count.since().plus(WINDOW)))
        : Optional.empty();
  }
}
