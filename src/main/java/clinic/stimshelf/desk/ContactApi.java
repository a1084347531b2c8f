package clinic.stimshelf.desk;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;

/** The contact log for scripts. */
@Path("/api/contacts")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class ContactApi {
  @Inject Contacts contacts;
  @Inject SignedIn signedIn;

  /** The body of an entry. */
  public record ContactIn(
      String loanId,
      String patientId,
      ContactOutcome outcome,
      LocalDate promisedOn,
      String note,
      OffsetDateTime happenedAt,
      String lateReason) {}

  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Page<ContactView> list(
      @QueryParam("location") String location,
      @QueryParam("loanId") String loanId,
      @QueryParam("patientId") String patientId,
      @BeanParam Paging paging) {
    List<Long> at =
        location == null ? signedIn.locationIds() : List.of(signedIn.locationOr(location));
    return contacts.list(at, optional("loanId", loanId), optional("patientId", patientId), paging);
  }

  @POST
  @Idempotent
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response log(ContactIn body) {
    return Response.status(Response.Status.CREATED)
        .entity(
            contacts.log(
                new NewContact(
                    optional("loanId", body.loanId()),
                    optional("patientId", body.patientId()),
                    body.outcome(),
                    body.promisedOn(),
                    body.note(),
                    body.happenedAt() == null ? null : body.happenedAt().toInstant(),
                    body.lateReason())))
        .build();
  }

  private static Long optional(String field, String id) {
    return id == null || id.isBlank() ? null : Ids.field(field, id);
  }
}
