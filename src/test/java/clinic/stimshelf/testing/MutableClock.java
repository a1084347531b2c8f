package clinic.stimshelf.testing;

import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Alternative;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;

/** The clock of every test that runs the program: real time until a test moves it. */
@Alternative
@Priority(1)
@ApplicationScoped
public class MutableClock extends Clock {
  private volatile Clock now = Clock.systemUTC();

  /** Stops the clock at an instant. */
  public void set(Instant instant) {
    // The database keeps microseconds; what it gives back must compare equal.
    now = Clock.fixed(instant.truncatedTo(ChronoUnit.MILLIS), ZoneOffset.UTC);
  }

  /** Moves the clock on; from here it stands still until it is moved again or reset. */
  public void advance(Duration by) {
    set(now.instant().plus(by));
  }

  /** Back to real time; happens by itself after each test. */
  public void reset() {
    now = Clock.systemUTC();
  }

  @Override
  public ZoneId getZone() {
    return ZoneOffset.UTC;
  }

  @Override
  public Clock withZone(ZoneId zone) {
    return now.withZone(zone);
  }

  @Override
  public Instant instant() {
    return now.instant();
  }
}
