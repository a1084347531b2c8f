package clinic.stimshelf.remind;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.PostOffice;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.junit.jupiter.api.Test;

/** RFC 3207: whoever requires STARTTLS gives nothing to a server that does not offer it. */
@QuarkusTest
class EncryptedPostTest {
  @Inject MessageConfig config;
  @Inject PostOffice office;
  @Inject Clock clock;

  @ConfigProperty(name = "quarkus.mailer.port")
  int port;

  @Test
  void nothing_leaves_in_the_clear_where_encryption_is_required() {
    String to = Crew.unique("secret") + "@example.net";

    Answer refused = hand(to, "REQUIRED");

    assertThat(refused.how()).as("it waits").isEqualTo(Answer.How.LATER);
    assertThat(office.mailTo(to)).isEmpty();
    assertThat(hand(to, "OPTIONAL").how()).isEqualTo(Answer.How.TAKEN);
    assertThat(office.mailTo(to)).hasSize(1);
  }

  private Answer hand(String to, String startTls) {
    Post post = new Post();
    post.config = config;
    post.clock = clock;
    post.from = Optional.of("clinic@example.org");
    post.host = "127.0.0.1";
    post.port = Optional.of(port);
    post.username = Optional.empty();
    post.password = Optional.empty();
    post.startTls = startTls;
    return post.hand(
        new Parcel(
            1L,
            0,
            Route.EMAIL,
            to,
            Crew.unique("id"),
            new Composed("en", "A message", List.of("Words"), null)));
  }
}
