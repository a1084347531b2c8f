package clinic.stimshelf.access;

import io.quarkus.security.identity.AuthenticationRequestContext;
import io.quarkus.security.identity.IdentityProvider;
import io.quarkus.security.identity.SecurityIdentity;
import io.smallrye.mutiny.Uni;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;

/** Knows a person by name and password sent with the call. */
@ApplicationScoped
class PersonIdentity implements IdentityProvider<Presented.NameAndPassword> {
  @Inject Passwords passwords;

  @Override
  public Class<Presented.NameAndPassword> getRequestType() {
    return Presented.NameAndPassword.class;
  }

  @Override
  public Uni<SecurityIdentity> authenticate(
      Presented.NameAndPassword shown, AuthenticationRequestContext context) {
    return context.runBlocking(() -> identify(shown));
  }

  private SecurityIdentity identify(Presented.NameAndPassword shown) {
    try {
      return Identities.of(
          Presence.of(passwords.verifyRemembered(shown.username, shown.password, shown.address)));
    } catch (NotLetIn why) {
      throw why.asFailure();
    }
  }
}
