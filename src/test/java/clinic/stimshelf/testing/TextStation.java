package clinic.stimshelf.testing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import io.quarkus.runtime.Startup;
import jakarta.annotation.PostConstruct;
import jakarta.annotation.PreDestroy;
import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetSocketAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/** The gateway for text messages of every test that runs the program: a real HTTP server. */
@Startup
@ApplicationScoped
public class TextStation {
  public static final String SECRET = "eleven geese over a frozen lake";
  private static final ObjectMapper JSON = new ObjectMapper();

  @ConfigProperty(name = "stimshelf.messages.text.url")
  URI address;

  private final List<Got> got = new CopyOnWriteArrayList<>();
  private volatile int answer = 202;
  private HttpServer server;

  /** A call as it came. */
  public record Got(JsonNode body, String text, String digest, String input, String signature) {}

  @PostConstruct
  void open() {
    try {
      server = HttpServer.create(new InetSocketAddress("127.0.0.1", address.getPort()), 0);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    server.createContext("/texts", this::take);
    server.start();
  }

  @PreDestroy
  void close() {
    server.stop(0);
  }

  /** What the gateway answers from now on. */
  public void answers(int status) {
    answer = status;
  }

  /** What came for the number. */
  public List<Got> textsTo(String number) {
    return got.stream().filter(one -> one.body().get("to").asText().equals(number)).toList();
  }

  private void take(HttpExchange call) throws IOException {
    String text = new String(call.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
    got.add(
        new Got(
            JSON.readTree(text),
            text,
            call.getRequestHeaders().getFirst("Content-Digest"),
            call.getRequestHeaders().getFirst("Signature-Input"),
            call.getRequestHeaders().getFirst("Signature")));
    call.sendResponseHeaders(answer, -1);
    call.close();
  }
}
