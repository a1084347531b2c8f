package clinic.stimshelf.desk;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.List;

/** The front desk's day for scripts. */
@Path("/api/today")
@Produces(MediaType.APPLICATION_JSON)
class TodayApi {
  @Inject Today today;
  @Inject SignedIn signedIn;

  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public TodayView today(@QueryParam("location") String location) {
    return today.at(
        location == null ? signedIn.locationIds() : List.of(signedIn.locationOr(location)));
  }
}
