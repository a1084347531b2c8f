package clinic.stimshelf.access;

import io.quarkus.scheduler.Scheduled;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;

/** Forgets what signing in leaves behind once it can matter no more. */
@ApplicationScoped
class Housekeeping {
  private static final Duration DAY = Duration.ofDays(1);

  @Inject Sessions sessions;

  @Inject HeldForms held;

  @Inject OneTimeCodes codes;

  @Inject Throttle throttle;

  @Inject AccessConfig config;

  @Scheduled(every = "1h", delayed = "10m", identity = "access-housekeeping")
  void forget() {
    sessions.forget(config.absolute().plus(DAY));
    held.forget(config.keepForms());
    codes.forget(DAY);
    throttle.forget(DAY);
  }
}
