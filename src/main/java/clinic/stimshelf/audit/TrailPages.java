package clinic.stimshelf.audit;

import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.time.ZoneOffset;

/** The whole trail, for managers. */
@Path("/settings/trail")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed(Roles.MANAGER)
class TrailPages {
  @Inject Trail trail;

  @CheckedTemplate(basePath = "audit", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record TrailPage(
      Page<TrailEntry> entries, String subject, int earlier, int later, ZoneOffset zone)
      implements TemplateInstance {}

  @GET
  public TemplateInstance show(@QueryParam("subject") String subject, @BeanParam Paging paging) {
    String asked = subject == null ? "" : subject.strip();
    return new TrailPage(
        trail.search(asked.isEmpty() ? null : Subject.parse(asked), paging),
        asked,
        paging.page() + 1,
        paging.page() - 1,
        ZoneOffset.UTC);
  }
}
