package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.List;

/** Treatment drawers: their levels, and what to bring there. */
@Path("/api/pad-drawers")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class PadDrawersApi {
  @Inject TreatmentDrawers drawers;
  @Inject SignedIn signedIn;

  /** Up to how many packs a drawer is filled; 0 gives it up. */
  record Level(String name, String code, Integer fillTo) {}

  @GET
  public List<TreatmentDrawers.DrawerView> list(@QueryParam("location") String location) {
    return drawers.at(signedIn.locationOr(location));
  }

  @POST
  @Idempotent
  public List<TreatmentDrawers.DrawerView> level(
      @QueryParam("location") String location, Level body) {
    Level level = Wire.body(body);
    Long here = signedIn.locationOr(location);
    drawers.level(
        here,
        level.name(),
        Wire.needed("code", level.code()),
        Wire.needed("fillTo", level.fillTo()));
    return drawers.at(here);
  }

  @POST
  @Idempotent
  @Path("{id}/filled")
  public List<TreatmentDrawers.DrawerView> filled(
      @PathParam("id") String id, @QueryParam("location") String location) {
    Long here = signedIn.locationOr(location);
    drawers.filled(Wire.id(id), here);
    return drawers.at(here);
  }
}
