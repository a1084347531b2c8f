package clinic.stimshelf.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JavaType;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.security.identity.SecurityIdentity;
import io.vertx.ext.web.RoutingContext;
import jakarta.annotation.Priority;
import jakarta.inject.Inject;
import jakarta.interceptor.AroundInvoke;
import jakarta.interceptor.Interceptor;
import jakarta.interceptor.InvocationContext;
import jakarta.ws.rs.core.Response;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;

/** Keeps and replays answers; stands outside of the transaction of the effect and begins it. */
@Idempotent
@Interceptor
@Priority(Interceptor.Priority.PLATFORM_BEFORE + 100)
class IdempotentCall {
  static final String HEADER = "Idempotency-Key";
  private static final int LONGEST_KEY = 255;

  @Inject RoutingContext routing;
  @Inject SecurityIdentity identity;
  @Inject KeptAnswers kept;
  @Inject ObjectMapper json;
  @Inject Clock clock;

  @AroundInvoke
  Object once(InvocationContext call) throws Exception {
    String key = routing.request().getHeader(HEADER);
    if (key == null || key.isBlank()) {
      return call.proceed();
    }
    if (key.length() > LONGEST_KEY) {
      throw new Malformed(HEADER, "The key has more than " + LONGEST_KEY + " characters.");
    }
    String hash = hash(call.getParameters());
    // The services' own tries are inside this transaction, where they cannot begin another.
    return Retry.run(
        () ->
            QuarkusTransaction.joiningExisting()
                .call(() -> within(call, unanswered(key.strip(), hash))));
  }

  /** A new one for each try: an entity that was given up with its transaction is of no use. */
  private KeptAnswer unanswered(String key, String hash) {
    KeptAnswer mine = new KeptAnswer();
    mine.account = identity.getPrincipal().getName();
    mine.callKey = key;
    mine.route = routing.request().method() + " " + routing.normalizedPath();
    mine.bodyHash = hash;
    return mine;
  }

  private Object within(InvocationContext call, KeptAnswer mine) throws Exception {
    KeptAnswer before = kept.of(mine.account, mine.callKey);
    if (before != null) {
      return again(call, mine, before);
    }
    Object answer = call.proceed();
    if (answer instanceof Response response) {
      mine.status = response.getStatus();
      mine.answer = json.writeValueAsString(response.getEntity());
    } else {
      mine.status = 200;
      mine.answer = json.writeValueAsString(answer);
    }
    if (mine.status / 100 == 2) {
      mine.madeAt = clock.instant();
      kept.keep(mine);
    }
    return answer;
  }

  private Object again(InvocationContext call, KeptAnswer mine, KeptAnswer before)
      throws JsonProcessingException {
    if (!before.route.equals(mine.route) || !before.bodyHash.equals(mine.bodyHash)) {
      throw new Refusal(
          HEADER,
          "This key was used for another call.",
          "Use a new key for each call, and the same one only to repeat it.");
    }
    if (call.getMethod().getReturnType() == Response.class) {
      return Response.status(before.status)
          .type("application/json;charset=UTF-8")
          .entity(json.readTree(before.answer))
          .build();
    }
    JavaType type = json.getTypeFactory().constructType(call.getMethod().getGenericReturnType());
    return json.readValue(before.answer, type);
  }

  /** The body as it was understood, so that blanks and the order of fields do not matter. */
  private String hash(Object[] parameters) throws JsonProcessingException {
    List<Object> said = new ArrayList<>();
    for (Object parameter : parameters) {
      if (parameter == null || parameter instanceof String || parameter instanceof Record) {
        said.add(parameter);
      }
    }
    try {
      return HexFormat.of()
          .formatHex(
              MessageDigest.getInstance("SHA-256")
                  .digest(json.writeValueAsString(said).getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException everyJavaHasIt) {
      throw new IllegalStateException(everyJavaHasIt);
    }
  }
}
