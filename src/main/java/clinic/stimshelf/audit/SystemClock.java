package clinic.stimshelf.audit;

import io.quarkus.arc.DefaultBean;
import jakarta.enterprise.inject.Produces;
import jakarta.inject.Singleton;
import java.time.Clock;

/** The clock everything reads, so that a test can set it. */
class SystemClock {

  @Produces
  @DefaultBean
  @Singleton
  Clock clock() {
    return Clock.systemUTC();
  }
}
