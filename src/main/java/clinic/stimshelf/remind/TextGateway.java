package clinic.stimshelf.remind;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.net.ConnectException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Clock;
import java.util.Set;

/** Hands text messages to the gateway the clinic chose: a signed post of JSON. */
@ApplicationScoped
class TextGateway {
  /** Refusals that a later try may not meet. */
  private static final Set<Integer> FOR_NOW = Set.of(401, 403, 408, 425, 429);

  @Inject MessageConfig config;
  @Inject ObjectMapper json;
  @Inject Clock clock;

  private final HttpClient http = HttpClient.newHttpClient();

  /**
   * What the gateway gets.
   *
   * @param id the same at every try: one that was taken must not be sent again
   */
  record Text(String id, String to, String language, String text) {}

  Answer hand(Parcel parcel) {
    URI address = URI.create(config.text().url().orElseThrow());
    try {
      String body =
          json.writeValueAsString(
              new Text(
                  parcel.mailId(),
                  parcel.to(),
                  parcel.composed().language(),
                  parcel.composed().shortText()));
      HttpRequest.Builder call =
          HttpRequest.newBuilder(address)
              .timeout(config.patience())
              .POST(HttpRequest.BodyPublishers.ofString(body));
      Signatures.sign(
              config.text().secret().orElseThrow(),
              address.getRawPath().isEmpty() ? "/" : address.getRawPath(),
              body,
              clock.instant())
          .forEach(call::header);
      int status = http.send(call.build(), HttpResponse.BodyHandlers.discarding()).statusCode();
      if (status / 100 == 2) {
        return Answer.taken();
      }
      return status / 100 == 4 && !FOR_NOW.contains(status)
          ? Answer.refused("the gateway answered " + status)
          : Answer.later("The gateway answered " + status + ".", true);
    } catch (ConnectException down) {
      return Answer.later("The gateway cannot be reached.", true);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    } catch (IOException lost) {
      return Answer.unknown("It is unknown whether the gateway sent it.");
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
      return Answer.unknown("It is unknown whether the gateway sent it.");
    }
  }
}
