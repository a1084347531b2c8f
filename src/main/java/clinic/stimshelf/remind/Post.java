package clinic.stimshelf.remind;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.mail.Message.RecipientType;
import jakarta.mail.MessagingException;
import jakarta.mail.Session;
import jakarta.mail.Transport;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeBodyPart;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.MimeMultipart;
import java.time.Clock;
import java.util.Date;
import java.util.List;
import java.util.Optional;
import java.util.Properties;
import org.eclipse.angus.mail.smtp.SMTPAddressFailedException;
import org.eclipse.angus.mail.smtp.SMTPSendFailedException;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/**
 * Hands messages to the mail server, one connection each, so that what is given up is over. The
 * server is the one of {@code quarkus.mailer.*}.
 */
@ApplicationScoped
class Post {
  private static final String UTF_8 = "UTF-8";

  @Inject MessageConfig config;
  @Inject Clock clock;

  @ConfigProperty(name = "quarkus.mailer.from")
  Optional<String> from;

  @ConfigProperty(name = "quarkus.mailer.host", defaultValue = "localhost")
  String host;

  @ConfigProperty(name = "quarkus.mailer.port")
  Optional<Integer> port;

  @ConfigProperty(name = "quarkus.mailer.username")
  Optional<String> username;

  @ConfigProperty(name = "quarkus.mailer.password")
  Optional<String> password;

  /** DISABLED, OPTIONAL or REQUIRED; a clinic that sends across a network requires it. */
  @ConfigProperty(name = "quarkus.mailer.start-tls", defaultValue = "OPTIONAL")
  String startTls;

  @ConfigProperty(name = "quarkus.mailer.tls", defaultValue = "false")
  boolean tls;

  @CheckedTemplate(basePath = "remind", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record MailBody(String lang, List<String> lines) implements TemplateInstance {}

  Answer hand(Parcel parcel) {
    try {
      Session session = session();
      MimeMessage mail = mail(session, parcel);
      Transport transport = session.getTransport(tls ? "smtps" : "smtp");
      try {
        transport.connect(host, port.orElse(-1), username.orElse(null), password.orElse(null));
        transport.sendMessage(mail, mail.getAllRecipients());
      } finally {
        close(transport);
      }
      return Answer.taken();
    } catch (MessagingException failed) {
      return answer(failed);
    }
  }

  private Session session() {
    Properties values = new Properties();
    String patience = String.valueOf(config.patience().toMillis());
    for (String protocol : List.of("mail.smtp.", "mail.smtps.")) {
      values.put(protocol + "connectiontimeout", patience);
      values.put(protocol + "timeout", patience);
      values.put(protocol + "writetimeout", patience);
      values.put(protocol + "quitwait", "false");
      values.put(protocol + "auth", String.valueOf(username.isPresent()));
      values.put(
          protocol + "starttls.enable", String.valueOf(!startTls.equalsIgnoreCase("DISABLED")));
      values.put(
          protocol + "starttls.required", String.valueOf(startTls.equalsIgnoreCase("REQUIRED")));
      config.bounces().ifPresent(bounces -> values.put(protocol + "from", bounces));
    }
    return Session.getInstance(values);
  }

  /** RFC 3834 (Auto-Submitted), RFC 8058 (one-click List-Unsubscribe), a Message-ID that stays. */
  private MimeMessage mail(Session session, Parcel parcel) throws MessagingException {
    InternetAddress sender = new InternetAddress(from.orElseThrow());
    String host = sender.getAddress().replaceAll(".*@", "");
    Composed composed = parcel.composed();
    MimeMessage mail =
        new MimeMessage(session) {
          @Override
          protected void updateMessageID() throws MessagingException {
            setHeader("Message-ID", "<" + parcel.mailId() + "@" + host + ">");
          }
        };
    mail.setFrom(sender);
    mail.setRecipient(RecipientType.TO, new InternetAddress(parcel.to(), true));
    mail.setSubject(composed.subject(), UTF_8);
    mail.setSentDate(Date.from(clock.instant()));
    mail.setHeader("Auto-Submitted", "auto-generated");
    if (composed.stop() != null) {
      mail.setHeader("List-Unsubscribe", "<" + composed.stop() + ">");
      mail.setHeader("List-Unsubscribe-Post", "List-Unsubscribe=One-Click");
    }
    MimeBodyPart plain = new MimeBodyPart();
    plain.setText(composed.text(), UTF_8);
    MimeBodyPart html = new MimeBodyPart();
    html.setText(new MailBody(composed.language(), composed.lines()).render(), UTF_8, "html");
    mail.setContent(new MimeMultipart("alternative", plain, html));
    mail.saveChanges();
    return mail;
  }

  /** What was taken stays taken, however the farewell goes. */
  private static void close(Transport transport) {
    try {
      transport.close();
    } catch (MessagingException alreadyGone) {
      // the answer to the message itself counts
    }
  }

  private static Answer answer(MessagingException failed) {
    for (Exception next = failed;
        next instanceof MessagingException said;
        next = said.getNextException()) {
      if (next instanceof SMTPAddressFailedException refused) {
        String words = refused.getReturnCode() + " " + plain(refused.getMessage());
        // 5.7.x (RFC 3463): the server's own policy, which says nothing of the address.
        boolean address = refused.getReturnCode() / 100 == 5 && !words.contains("5.7.");
        return address ? Answer.refused(words) : Answer.later(words, words.contains("5.7."));
      }
      if (next instanceof SMTPSendFailedException server) {
        return Answer.later(server.getReturnCode() + " " + plain(server.getMessage()), true);
      }
    }
    return Answer.later(
        "The mail server did not answer (" + failed.getClass().getSimpleName() + ").", true);
  }

  /** What the server said, in one line and without the code that stands before it. */
  private static String plain(String words) {
    return words == null ? "" : Composer.plain(words).replaceFirst("^[45]\\d\\d[ -]", "");
  }
}
