package clinic.stimshelf.remind;

import io.smallrye.health.api.Wellness;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Duration;
import org.eclipse.microprofile.health.HealthCheck;
import org.eclipse.microprofile.health.HealthCheckResponse;
import org.eclipse.microprofile.health.HealthCheckResponseBuilder;

/**
 * Whether messages leave. Not part of readiness: with a mail server that is down the program is
 * still of use.
 */
@Wellness
@ApplicationScoped
class OutboxHealth implements HealthCheck {
  @Inject Outbox outbox;
  @Inject Senders senders;
  @Inject MessageConfig config;
  @Inject Clock clock;

  @Override
  @ActivateRequestContext
  public HealthCheckResponse call() {
    HealthCheckResponseBuilder answer = HealthCheckResponse.named("messages leave");
    long minutes =
        senders.any()
            ? outbox
                .oldest()
                .map(due -> Duration.between(due, clock.instant()).toMinutes())
                .orElse(0L)
            : 0;
    return answer
        .withData("oldest-waits-minutes", Math.max(0, minutes))
        .status(minutes <= config.oldAfter().toMinutes())
        .build();
  }
}
