package clinic.stimshelf.loans;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.time.LocalDate;

/** Requests for a unit. */
@Path("/api/requests")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class RequestApi {
  @Inject Requests requests;
  @Inject SignedIn signedIn;

  /** The body of a request. */
  public record RequestIn(
      String programId, LocalDate neededFrom, Integer priority, String agreementVersion) {}

  /** Which unit is set aside. */
  public record ReserveIn(String unitTag) {}

  /** Open requests in serving order; {@code state=all} for those that ended too. */
  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Page<RequestView> list(
      @QueryParam("location") String location,
      @QueryParam("state") String state,
      @BeanParam Paging paging) {
    return requests.list(signedIn.locationsOr(location), !"all".equals(state), paging);
  }

  @POST
  @Idempotent
  @RolesAllowed({Roles.THERAPIST, Roles.FRONT_DESK, Roles.MANAGER})
  public RequestView ask(RequestIn body) {
    if (body == null) {
      throw new Malformed(null, "The call needs a JSON body.");
    }
    return requests.byId(
        requests.ask(
            new NewRequest(
                Ids.field("programId", body.programId()),
                body.neededFrom(),
                body.priority(),
                body.agreementVersion())));
  }

  @POST
  @Path("/{id}/unit")
  @Idempotent
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public RequestView reserve(@PathParam("id") String id, ReserveIn body) {
    Long request = mine(id);
    if (body == null || body.unitTag() == null) {
      requests.unreserve(request);
    } else {
      requests.reserve(request, body.unitTag());
    }
    return requests.byId(request);
  }

  @DELETE
  @Path("/{id}")
  @RolesAllowed({Roles.THERAPIST, Roles.FRONT_DESK, Roles.MANAGER})
  public RequestView withdraw(@PathParam("id") String id, @QueryParam("reason") String reason) {
    Long request = mine(id);
    requests.withdraw(request, reason == null ? "cancelled by a script" : reason);
    return requests.byId(request);
  }

  private Long mine(String id) {
    Long request = Ids.of(id, "request");
    signedIn.requireLocation(requests.locationOf(request));
    return request;
  }
}
