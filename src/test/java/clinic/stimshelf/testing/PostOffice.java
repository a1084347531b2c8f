package clinic.stimshelf.testing;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import io.quarkus.runtime.Startup;
import io.quarkus.test.common.QuarkusTestResourceLifecycleManager;
import io.quarkus.test.common.TestResourceScope;
import io.quarkus.test.common.WithTestResource;
import jakarta.annotation.PostConstruct;
import jakarta.annotation.PreDestroy;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.mail.MessagingException;
import jakarta.mail.internet.MimeMessage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.ServerSocket;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/**
 * The mail server of every test that runs the program: a real SMTP server behind a line that can
 * fail. After each test it behaves again.
 */
@Startup
@ApplicationScoped
@WithTestResource(value = PostOffice.Address.class, scope = TestResourceScope.GLOBAL)
public class PostOffice {
  @ConfigProperty(name = "quarkus.mailer.port")
  int port;

  private GreenMail server;
  private FaultyLine line;

  /** Picks the ports before the program starts. */
  public static class Address implements QuarkusTestResourceLifecycleManager {
    @Override
    public Map<String, String> start() {
      return Map.of(
          "quarkus.mailer.mock",
          "false",
          "quarkus.mailer.host",
          "127.0.0.1",
          "quarkus.mailer.port",
          String.valueOf(freePort()),
          "stimshelf.messages.text.url",
          "http://127.0.0.1:" + freePort() + "/texts",
          "stimshelf.messages.text.secret",
          TextStation.SECRET);
    }

    @Override
    public void stop() {
      // the servers end with the program
    }
  }

  public static int freePort() {
    try (ServerSocket free = new ServerSocket(0)) {
      return free.getLocalPort();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @PostConstruct
  void open() {
    server = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    server.start();
    line = new FaultyLine(port, server.getSmtp().getPort());
  }

  @PreDestroy
  void close() {
    line.close();
    server.stop();
  }

  /** How the line behaves from now on, for connections that stand too. */
  public void line(FaultyLine.Manner manner) {
    line.behave(manner);
  }

  /** How often something was tried while the line failed. */
  public int failures() {
    return line.failures();
  }

  /** What was delivered to the address, in order. */
  public List<MimeMessage> mailTo(String address) {
    List<MimeMessage> found = new ArrayList<>();
    for (MimeMessage mail : server.getReceivedMessages()) {
      try {
        if (mail.getAllRecipients() != null
            && List.of(mail.getAllRecipients()).stream()
                .anyMatch(to -> to.toString().equals(address))) {
          found.add(mail);
        }
      } catch (MessagingException e) {
        throw new IllegalStateException(e);
      }
    }
    return found;
  }
}
