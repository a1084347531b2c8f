package clinic.stimshelf.recall;

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
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.time.LocalDate;
import java.time.OffsetDateTime;

/** Incidents for scripts. */
@Path("/api/incidents")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class IncidentApi {
  @Inject Incidents incidents;
  @Inject SignedIn signedIn;

  /** The body that enters one. */
  public record IncidentIn(
      String unitTag,
      String chartNumber,
      IncidentKind kind,
      Harm harm,
      String words,
      OffsetDateTime happenedAt,
      LocalDate awareOn) {}

  /** Who was told, or with {@code told} false why not. */
  public record ToldIn(
      Whom whom,
      boolean told,
      String spokeWith,
      String reference,
      String words,
      OffsetDateTime happenedAt,
      String lateReason) {}

  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Page<IncidentLine> list(
      @QueryParam("location") String location, @BeanParam Paging paging) {
    return incidents.list(signedIn.locationsOr(location), paging);
  }

  @GET
  @Path("{id}")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public IncidentView one(@PathParam("id") String id) {
    return incidents.byId(Ids.of(id, "incident"));
  }

  @POST
  @Idempotent
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response enter(IncidentIn body) {
    IncidentIn said = RecallApi.there(body);
    Long id =
        incidents.enter(
            new NewIncident(
                said.unitTag(),
                said.chartNumber(),
                said.kind(),
                said.harm(),
                said.words(),
                said.happenedAt() == null ? null : said.happenedAt().toInstant(),
                said.awareOn()));
    return Response.status(Response.Status.CREATED).entity(incidents.byId(id)).build();
  }

  @POST
  @Idempotent
  @Path("{id}/told")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public IncidentView tell(@PathParam("id") String id, ToldIn body) {
    ToldIn said = RecallApi.there(body);
    incidents.tell(
        Ids.of(id, "incident"),
        new NewTold(
            said.whom(),
            said.told(),
            said.spokeWith(),
            said.reference(),
            said.words(),
            said.happenedAt() == null ? null : said.happenedAt().toInstant(),
            said.lateReason()));
    return one(id);
  }

  @POST
  @Idempotent
  @Path("{id}/closure")
  @RolesAllowed(Roles.MANAGER)
  public IncidentView close(@PathParam("id") String id, RecallApi.WordsIn body) {
    incidents.close(Ids.of(id, "incident"), RecallApi.there(body).words());
    return one(id);
  }
}
