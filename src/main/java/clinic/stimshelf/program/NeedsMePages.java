package clinic.stimshelf.program;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Way;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.Set;

/** The therapist's start: who needs me? */
@Path("/needs-me")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed(Roles.THERAPIST)
@Blocking
class NeedsMePages {
  @Inject NeedsMe needsMe;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /**
   * The page.
   *
   * @param everybody whether the whole location's patients are shown
   */
  @CheckedTemplate(basePath = "program", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record NeedsMePage(NeedsMe.Desk desk, boolean everybody) implements TemplateInstance {}

  /** Its place in the navigation. */
  @ApplicationScoped
  static class NeedsMeWay implements Way {
    @Override
    public int order() {
      return 20;
    }

    @Override
    public String label() {
      return "Needs me";
    }

    @Override
    public String href() {
      return "/needs-me";
    }

    @Override
    public Set<String> roles() {
      return Set.of(Roles.THERAPIST);
    }
  }

  @GET
  public TemplateInstance page(@QueryParam("whose") String whose) {
    Long here = signedIn.locationOr(null);
    boolean everybody = "everybody".equals(whose);
    return new NeedsMePage(
        needsMe.desk(
            new NeedsMeSource.Ask(
                here, everybody ? null : signedIn.staffId(), locations.today(here))),
        everybody);
  }
}
