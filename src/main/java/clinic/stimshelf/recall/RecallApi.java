package clinic.stimshelf.recall;

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
import java.time.OffsetDateTime;

/** Recalls for scripts. */
@Path("/api/recalls")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class RecallApi {
  @Inject Recalls recalls;
  @Inject Reaching reaching;

  /** The body that begins one: a lot, a unit, or a kind with serial numbers from and to. */
  public record RecallIn(
      String lotId,
      String unitTag,
      String kind,
      String serialFrom,
      String serialTo,
      String reason,
      String reference) {}

  /** An attempt to reach somebody. */
  public record ReachIn(
      String patientId,
      ReachOutcome outcome,
      String spokeWith,
      String proof,
      String note,
      OffsetDateTime happenedAt,
      String lateReason) {}

  /** Why somebody is left unreached. */
  public record ExcuseIn(String patientId, String reason) {}

  /** A step in words. */
  public record WordsIn(String words) {}

  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Page<RecallLine> list(@BeanParam Paging paging) {
    return recalls.list(paging);
  }

  @GET
  @Path("{id}")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public RecallView one(@PathParam("id") String id) {
    return recalls.byId(Ids.of(id, "recall"));
  }

  @POST
  @Idempotent
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response start(RecallIn body) {
    RecallIn wanted = there(body);
    Long id =
        recalls.start(
            new NewRecall(
                wanted.lotId() == null ? null : Ids.field("lotId", wanted.lotId()),
                wanted.unitTag(),
                wanted.kind(),
                wanted.serialFrom(),
                wanted.serialTo(),
                wanted.reason(),
                wanted.reference()));
    return Response.status(Response.Status.CREATED).entity(recalls.byId(id)).build();
  }

  @POST
  @Idempotent
  @Path("{id}/contacts")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public RecallView reach(@PathParam("id") String id, ReachIn body) {
    Long recall = Ids.of(id, "recall");
    ReachIn said = there(body);
    reaching.reach(
        recall,
        new NewReach(
            Ids.field("patientId", said.patientId()),
            said.outcome(),
            said.spokeWith(),
            said.proof(),
            said.note(),
            said.happenedAt() == null ? null : said.happenedAt().toInstant(),
            said.lateReason()));
    return recalls.byId(recall);
  }

  @POST
  @Idempotent
  @Path("{id}/excuses")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public RecallView excuse(@PathParam("id") String id, ExcuseIn body) {
    Long recall = Ids.of(id, "recall");
    ExcuseIn said = there(body);
    reaching.excuse(recall, Ids.field("patientId", said.patientId()), said.reason());
    return recalls.byId(recall);
  }

  @POST
  @Idempotent
  @Path("{id}/hold")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public RecallView hold(@PathParam("id") String id) {
    recalls.holdAgain(Ids.of(id, "recall"));
    return one(id);
  }

  @POST
  @Idempotent
  @Path("{id}/drawers")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public RecallView drawers(@PathParam("id") String id, WordsIn body) {
    recalls.drawersChecked(Ids.of(id, "recall"), there(body).words());
    return one(id);
  }

  @POST
  @Idempotent
  @Path("{id}/closure")
  @RolesAllowed(Roles.MANAGER)
  public RecallView close(@PathParam("id") String id, WordsIn body) {
    recalls.close(Ids.of(id, "recall"), there(body).words());
    return one(id);
  }

  @POST
  @Idempotent
  @Path("{id}/reopening")
  @RolesAllowed(Roles.MANAGER)
  public RecallView reopen(@PathParam("id") String id, WordsIn body) {
    recalls.reopen(Ids.of(id, "recall"), there(body).words());
    return one(id);
  }

  static <T> T there(T body) {
    if (body == null) {
      throw new Malformed("body", "The call needs a body.");
    }
    return body;
  }
}
