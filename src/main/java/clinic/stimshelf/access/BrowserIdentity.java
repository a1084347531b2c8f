package clinic.stimshelf.access;

import io.quarkus.security.identity.AuthenticationRequestContext;
import io.quarkus.security.identity.IdentityProvider;
import io.quarkus.security.identity.SecurityIdentity;
import io.smallrye.mutiny.Uni;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;

/** Knows a browser by its session. */
@ApplicationScoped
class BrowserIdentity implements IdentityProvider<Presented.Cookie> {
  @Inject Sessions sessions;

  @Override
  public Class<Presented.Cookie> getRequestType() {
    return Presented.Cookie.class;
  }

  @Override
  public Uni<SecurityIdentity> authenticate(
      Presented.Cookie shown, AuthenticationRequestContext context) {
    return context.runBlocking(
        () ->
            sessions
                .find(shown.token, shown.background)
                .map(Identities::of)
                .orElseThrow(() -> NotLetIn.wrong().asFailure()));
  }
}
