package clinic.stimshelf.audit;

import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;

@Path("/api/trail")
@Produces(MediaType.APPLICATION_JSON)
class TrailApi {
  @Inject Trail trail;

  /** The trail, newest first; {@code subject} as kind:id, or a kind alone. */
  @GET
  @RolesAllowed(Roles.MANAGER)
  public Page<TrailEntry> search(@QueryParam("subject") String subject, @BeanParam Paging paging) {
    return trail.search(
        subject == null || subject.isBlank() ? null : Subject.parse(subject.strip()), paging);
  }
}
