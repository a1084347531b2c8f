package clinic.stimshelf.remind;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/** What this clinic can send with. */
@ApplicationScoped
class Senders {
  @Inject MessageConfig config;

  /** Without a sender there is no mail server. */
  @ConfigProperty(name = "quarkus.mailer.from")
  Optional<String> from;

  boolean mail() {
    return from.isPresent();
  }

  boolean text() {
    return config.text().url().isPresent() && config.text().secret().isPresent();
  }

  boolean any() {
    return mail() || text();
  }

  boolean with(Route route) {
    return route == Route.EMAIL ? mail() : text();
  }
}
