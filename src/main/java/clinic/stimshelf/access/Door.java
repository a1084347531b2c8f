package clinic.stimshelf.access;

import io.quarkus.security.AuthenticationFailedException;
import io.quarkus.security.identity.IdentityProviderManager;
import io.quarkus.security.identity.SecurityIdentity;
import io.quarkus.security.identity.request.AuthenticationRequest;
import io.quarkus.vertx.http.runtime.security.ChallengeData;
import io.quarkus.vertx.http.runtime.security.HttpAuthenticationMechanism;
import io.smallrye.mutiny.Uni;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * The one way in: an Authorization header if there is one (Bearer access key or Basic), else the
 * browser's session.
 */
@ApplicationScoped
class Door implements HttpAuthenticationMechanism {
  @Inject AccessConfig config;

  @Override
  public Uni<SecurityIdentity> authenticate(RoutingContext call, IdentityProviderManager manager) {
    HttpServerRequest request = call.request();
    String header = request.getHeader("Authorization");
    if (header != null) {
      if (Wire.exposed(request) && !config.plainHttp()) {
        return Uni.createFrom().failure(NotLetIn.plain().asFailure());
      }
      Presented presented = read(header, Wire.address(request));
      return presented == null
          ? Uni.createFrom().failure(NotLetIn.unreadable().asFailure())
          : manager.authenticate(presented);
    }
    String token = Wire.sessionCookie(request);
    if (token == null) {
      return Uni.createFrom().nullItem();
    }
    return manager
        .authenticate(new Presented.Cookie(token, request.getHeader("X-Background") != null))
        .onFailure(AuthenticationFailedException.class)
        .recoverWithNull();
  }

  @Override
  public Uni<ChallengeData> getChallenge(RoutingContext call) {
    if (Wire.isApi(call.normalizedPath()) || call.normalizedPath().startsWith("/q/")) {
      return Uni.createFrom().item(new ChallengeData(401, challenge(call.request())));
    }
    return Uni.createFrom()
        .item(new ChallengeData(303, Map.of("Location", Wire.signInFor(call.request().uri()))));
  }

  @Override
  public Set<Class<? extends AuthenticationRequest>> getCredentialTypes() {
    return Set.of(Presented.Cookie.class, Presented.Key.class, Presented.NameAndPassword.class);
  }

  /**
   * A browser that is offered Basic would ask for a password itself and then send it along with
   * every request, forged ones too; only scripts are offered it.
   */
  static Map<CharSequence, String> challenge(HttpServerRequest request) {
    boolean browser = request.getHeader("Sec-Fetch-Mode") != null;
    return Map.of(
        "WWW-Authenticate",
        browser ? "Bearer" : "Bearer, Basic realm=\"Stimshelf\", charset=\"UTF-8\"");
  }

  private static Presented read(String header, String address) {
    int blank = header.indexOf(' ');
    if (blank < 0) {
      return null;
    }
    String scheme = header.substring(0, blank).toLowerCase(Locale.ROOT);
    String rest = header.substring(blank + 1).strip();
    if (scheme.equals("bearer") && !rest.isEmpty()) {
      return new Presented.Key(rest);
    }
    if (scheme.equals("basic")) {
      try {
        String pair = new String(Base64.getDecoder().decode(rest), StandardCharsets.UTF_8);
        int colon = pair.indexOf(':');
        return colon < 0
            ? null
            : new Presented.NameAndPassword(
                pair.substring(0, colon), pair.substring(colon + 1), address);
      } catch (IllegalArgumentException notBase64) {
        return null;
      }
    }
    return null;
  }
}
