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

/** Counts that go on spot by spot while packs leave. */
@Path("/api/pad-counts")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class PadCountsApi {
  @Inject CountRounds rounds;
  @Inject SignedIn signedIn;
  @Inject Wire wire;

  /** Packs of a lot at a spot. */
  record Found(String spot, String lotId, Integer packs) {}

  /** How a count ends; {@code all} if every spot was counted. */
  record End(boolean all, String reason) {}

  @POST
  @Idempotent
  public CountRounds.RoundView start(@QueryParam("location") String location) {
    return rounds.byId(rounds.start(signedIn.locationOr(location)));
  }

  @GET
  @Path("{id}")
  public CountRounds.RoundView one(@PathParam("id") String id) {
    return rounds.byId(mine(id));
  }

  @POST
  @Idempotent
  @Path("{id}/lines")
  public CountRounds.RoundView found(@PathParam("id") String id, Found body) {
    Found found = Wire.body(body);
    Long round = mine(id);
    rounds.found(
        round,
        found.spot(),
        Wire.number("lotId", found.lotId()),
        Wire.needed("packs", found.packs()));
    return rounds.byId(round);
  }

  @POST
  @Idempotent
  @Path("{id}/end")
  public CountRounds.Result end(@PathParam("id") String id, End body) {
    End end = Wire.body(body);
    Long round = mine(id);
    return rounds.close(
        round, end.all(), end.reason(), wire.happened(null, null, rounds.byId(round).locationId()));
  }

  private Long mine(String id) {
    Long round = Wire.id(id);
    signedIn.requireLocation(rounds.byId(round).locationId());
    return round;
  }
}
