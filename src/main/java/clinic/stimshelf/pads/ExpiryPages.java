package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;

/** What will expire unused, by when, and where it could be used instead. */
@Path("/pads/expiry")
@Produces(Shown.HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.MANAGER})
@Blocking
class ExpiryPages {
  @Inject Expiry expiry;
  @Inject SignedIn signedIn;

  /** The list. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ExpiryPage(Expiry.View view, int packs) implements TemplateInstance {}

  @GET
  public TemplateInstance page() {
    Expiry.View view = expiry.at(signedIn.locationIds(), signedIn.locationIds());
    return new ExpiryPage(view, view.unused().stream().mapToInt(Expiry.Unused::packs).sum());
  }
}
