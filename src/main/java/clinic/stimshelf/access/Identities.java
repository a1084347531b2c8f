package clinic.stimshelf.access;

import io.quarkus.security.identity.SecurityIdentity;
import io.quarkus.security.runtime.QuarkusPrincipal;
import io.quarkus.security.runtime.QuarkusSecurityIdentity;

/** A presence as the framework checks roles against it. */
final class Identities {
  private Identities() {}

  static SecurityIdentity of(Presence presence) {
    String name = presence.staff().username();
    return QuarkusSecurityIdentity.builder()
        .setPrincipal(new QuarkusPrincipal(name == null ? presence.staff().ref() : name))
        .addRole(presence.role())
        .addAttribute(Presence.KEY, presence)
        .build();
  }
}
