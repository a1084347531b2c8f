package clinic.stimshelf.pads;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Refusal;
import io.quarkus.mailer.Mail;
import io.quarkus.mailer.Mailer;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import java.util.regex.Pattern;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.jboss.logging.Logger;

/** Sends orders to suppliers, where the clinic has a mail server. */
@ApplicationScoped
class SupplierMail {
  private static final Logger LOG = Logger.getLogger(SupplierMail.class);
  private static final Pattern ADDRESS = Pattern.compile("[^\\s@<>,;]+@[^\\s@<>,;]+");
  private static final String CURE = "Print the order, or send its CSV file yourself.";

  @Inject Mailer mailer;
  @Inject Supply supply;
  @Inject PadCatalog catalog;
  @Inject Locations locations;

  /** Without a sender there is no mail server. */
  @ConfigProperty(name = "quarkus.mailer.from")
  Optional<String> from;

  boolean able() {
    return from.isPresent();
  }

  /**
   * Sends an order. That it is on its way is stored first: after a crash the page says so, rather
   * than offer to order twice.
   *
   * @throws Refusal if there is no mail server, it does not take the mail, the address is none, or
   *     nothing of the order is to come
   */
  void send(Long orderId, String to, Happened happened) {
    if (!able()) {
      throw new Refusal("to", "No mail server is set.", CURE);
    }
    if (to == null || to.length() > 254 || !ADDRESS.matcher(to.strip()).matches()) {
      throw new Refusal("to", "“" + to + "” is no e-mail address, such as orders@example.com.");
    }
    OrderView order = supply.mailBegins(orderId, to.strip());
    LocationView place = locations.byId(supply.locationOf(orderId));
    try {
      mailer.send(
          Mail.withText(
              to.strip(),
              OrderText.subject(order, place),
              OrderText.mail(order, place, catalog.names())));
    } catch (RuntimeException failed) {
      LOG.warn("The mail server did not take an order: " + failed.getClass().getSimpleName());
      supply.mailFailed(orderId, order);
      throw new Refusal("to", "The mail server did not take it; nothing was sent.", CURE);
    }
    supply.mailed(orderId, to.strip(), happened);
  }
}
