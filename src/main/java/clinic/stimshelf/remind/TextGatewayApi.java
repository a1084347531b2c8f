package clinic.stimshelf.remind;

import clinic.stimshelf.access.Guesses;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Retried;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.smallrye.common.annotation.Blocking;
import io.vertx.core.http.HttpServerRequest;
import jakarta.annotation.security.PermitAll;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.time.Clock;

/**
 * What the gateway for text messages tells: delivered, undelivered, or that somebody wants no more.
 * The signature says who calls (RFC 9421); telling the same again changes nothing.
 */
@Path("/api/text-gateway")
@Consumes(MediaType.APPLICATION_JSON)
@Produces(MediaType.APPLICATION_JSON)
@PermitAll
@Blocking
class TextGatewayApi {
  @Inject MessageConfig config;
  @Inject TextAnswers answers;
  @Inject Guesses guesses;
  @Inject HttpServerRequest request;
  @Inject ObjectMapper json;
  @Inject Clock clock;

  /**
   * The body.
   *
   * @param kind delivered, undelivered or stop
   * @param id of the text, for the first two
   * @param from the number that wants no more, for the last
   */
  public record Told(String kind, String id, String from) {}

  @POST
  @Idempotent
  @Retried
  public Response tell(
      String body,
      @HeaderParam("Signature-Input") String input,
      @HeaderParam("Signature") String signature) {
    guesses.refuse("gateway", request);
    String secret =
        config
            .text()
            .secret()
            .orElseThrow(() -> new NotFound("No gateway for text messages is set."));
    if (!Signatures.holds(
        secret, "/api/text-gateway", body == null ? "" : body, input, signature, clock.instant())) {
      guesses.failed("gateway", request);
      return Response.status(Response.Status.UNAUTHORIZED)
          .type("application/problem+json")
          .entity(
              clinic.stimshelf.web.Problem.of(
                  401,
                  "Not signed",
                  "The signature does not hold. Sign method, path, content-type and content-digest"
                      + " with hmac-sha256, within five minutes.",
                  java.util.List.of()))
          .build();
    }
    Told told = read(body);
    if (told.kind() == null) {
      throw new Malformed("kind", "Possible: delivered, undelivered, stop.");
    }
    switch (told.kind()) {
      case "delivered" -> {
        // that it left is all we keep
      }
      case "undelivered" -> answers.undelivered(told.id());
      case "stop" -> answers.stop(told.from());
      default -> throw new Malformed("kind", "Possible: delivered, undelivered, stop.");
    }
    return Response.noContent().build();
  }

  private Told read(String body) {
    try {
      return json.readValue(body, Told.class);
    } catch (JsonProcessingException e) {
      throw new Malformed("body", "This is no JSON with kind, id or from.");
    }
  }
}
