package clinic.stimshelf.outcomes;

import clinic.stimshelf.people.Side;
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
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.math.BigDecimal;
import java.time.OffsetDateTime;

/** Measured outcomes for scripts. */
@Path("/api/patients/{patient}/outcomes")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class OutcomesApi {
  @Inject Outcomes outcomes;

  /** A measurement as sent. */
  record OutcomeBody(
      String programId,
      Measure measure,
      Side side,
      String what,
      BigDecimal involved,
      BigDecimal uninvolved,
      String note,
      OffsetDateTime happenedAt,
      String lateReason) {}

  record VoidOutcomeBody(String reason) {}

  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Page<OutcomeView> list(@PathParam("patient") String patient, @BeanParam Paging paging) {
    return paging.cut(outcomes.of(Ids.of(patient, "patient")));
  }

  @POST
  @Idempotent
  @RolesAllowed(Roles.THERAPIST)
  public Response record(@PathParam("patient") String patient, OutcomeBody body) {
    if (body == null) {
      throw new Malformed("body", "The body is missing.");
    }
    Long who = Ids.of(patient, "patient");
    Long made =
        outcomes.record(
            new NewOutcome(
                null,
                who,
                body.programId() == null ? null : Ids.field("programId", body.programId()),
                body.measure(),
                body.side(),
                body.what(),
                body.involved(),
                body.uninvolved(),
                body.note(),
                body.happenedAt() == null ? null : body.happenedAt().toInstant(),
                body.lateReason()));
    return Response.status(Response.Status.CREATED).entity(outcomes.byId(who, made)).build();
  }

  @POST
  @Idempotent
  @Path("{outcome}/void")
  @RolesAllowed(Roles.THERAPIST)
  public OutcomeView voided(
      @PathParam("patient") String patient,
      @PathParam("outcome") String outcome,
      VoidOutcomeBody body) {
    return outcomes.voided(
        Ids.of(patient, "patient"),
        Ids.of(outcome, "measurement"),
        body == null ? null : body.reason());
  }
}
