package clinic.stimshelf.remind;

import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;
import java.time.Duration;
import java.util.Optional;

/** How messages leave. The mail server itself is {@code quarkus.mailer.*}. */
@ConfigMapping(prefix = "stimshelf.messages")
interface MessageConfig {

  /** Where patients reach this program, such as https://clinic.example; without it, no links. */
  Optional<String> url();

  /**
   * Messages a minute and node, so that the mail server does not take the clinic for a nuisance.
   */
  @WithDefault("60")
  int perMinute();

  /** How long one message may take before it counts as lost on the way. */
  @WithDefault("30s")
  Duration patience();

  /** A message that waits longer is reported to whoever watches the program's health. */
  @WithDefault("1h")
  Duration oldAfter();

  /** Where mail that cannot be delivered is returned to; by default to the sender. */
  Optional<String> bounces();

  Text text();

  /** The gateway for text messages. */
  interface Text {
    Optional<String> url();

    /** Shared with the gateway; both sign with it. */
    Optional<String> secret();
  }
}
