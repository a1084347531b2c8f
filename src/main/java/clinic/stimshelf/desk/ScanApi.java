package clinic.stimshelf.desk;

import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;

/**
 * A scanned code for scripts. It looks and changes nothing, so that no key is needed to repeat it.
 */
@Path("/api/scan")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class ScanApi {
  @Inject Scans scans;

  /** The body: the code as it was scanned or typed. */
  public record ScanIn(String code) {}

  @POST
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public ScanAnswer scan(ScanIn body) {
    return scans.look(body == null ? null : body.code());
  }
}
