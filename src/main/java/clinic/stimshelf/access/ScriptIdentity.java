package clinic.stimshelf.access;

import io.quarkus.security.identity.AuthenticationRequestContext;
import io.quarkus.security.identity.IdentityProvider;
import io.quarkus.security.identity.SecurityIdentity;
import io.smallrye.mutiny.Uni;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;

/** Knows a script by its access key. */
@ApplicationScoped
class ScriptIdentity implements IdentityProvider<Presented.Key> {
  @Inject AccessKeys keys;

  @Override
  public Class<Presented.Key> getRequestType() {
    return Presented.Key.class;
  }

  @Override
  public Uni<SecurityIdentity> authenticate(
      Presented.Key shown, AuthenticationRequestContext context) {
    return context.runBlocking(
        () ->
            keys.find(shown.secret)
                .map(Identities::of)
                .orElseThrow(() -> NotLetIn.wrongKey().asFailure()));
  }
}
