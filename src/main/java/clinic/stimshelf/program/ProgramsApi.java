package clinic.stimshelf.program;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.IfMatch;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;

/** Home programs for scripts. */
@Path("/api")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class ProgramsApi {
  @Inject Programs programs;
  @Inject Holds holds;
  @Inject EndDecisions ends;
  @Inject SessionLogs sessions;
  @Inject Templates templates;
  @Inject SignedIn signedIn;

  record SignatureBody(
      Boolean reviewed, String dueKind, OffsetDateTime happenedAt, String lateReason) {}

  record FirstSessionBody(String words, OffsetDateTime happenedAt, String lateReason) {}

  record SettingBody(
      String unitTag, Boolean matches, OffsetDateTime happenedAt, String lateReason) {}

  record PauseBody(LocalDate from, LocalDate to, String reason) {}

  record ResumeBody(LocalDate from) {}

  /** Why a program ends; {@code abandoned} where the patient gave it up. */
  record StopBody(String reason, Boolean abandoned, OffsetDateTime happenedAt, String lateReason) {}

  record HandOverBody(String therapistId) {}

  /** Why nobody may go on: clot, implant, pregnancy, readmission, fall or other. */
  record HoldBody(String reason, String words, OffsetDateTime happenedAt, String lateReason) {}

  /** How it ends: goal-met, extend, step-down, clinic-only, own-unit or rented-unit. */
  record EndBody(String choice, String words, OffsetDateTime happenedAt, String lateReason) {}

  record ReleaseBody(String words, OffsetDateTime happenedAt, String lateReason) {}

  record VoidBody(String reason) {}

  /** A session as sent. */
  record SessionBody(
      LocalDate on,
      Integer number,
      String outcome,
      String source,
      Integer contractions,
      String intensity,
      String pads,
      String skin,
      Boolean padsTrouble,
      Boolean skinTrouble,
      String note,
      OffsetDateTime happenedAt,
      String lateReason) {}

  /** What follows from entering sessions. */
  record SessionsJson(List<SessionView> sessions, Adherence adherence) {}

  @GET
  @Path("program-templates")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Page<TemplateView> templates(@BeanParam Paging paging) {
    return paging.cut(templates.all().stream().map(TemplateView::of).toList());
  }

  @GET
  @Path("programs")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Page<ProgramView> list(@QueryParam("patientId") String patient, @BeanParam Paging paging) {
    if (patient == null || patient.isBlank()) {
      throw new Malformed("patientId", "Name the patient: programs are never listed without.");
    }
    return paging.cut(programs.ofPatient(id(patient)));
  }

  @POST
  @Idempotent
  @Path("programs")
  @RolesAllowed(Roles.THERAPIST)
  public Response draft(ProgramBody body) {
    present(body);
    if (body.patientId() == null) {
      throw new Malformed("patientId", "Whose program is it? Name patientId.");
    }
    Long place = body.location() == null ? null : signedIn.locationOr(body.location());
    ProgramView made = programs.draft(body.patientId(), place, body.content(templates));
    return Response.created(URI.create("/api/programs/" + made.id()))
        .tag(IfMatch.tag(made.version()))
        .entity(made)
        .build();
  }

  @GET
  @Path("programs/{id}")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response one(@PathParam("id") String id, @QueryParam("version") Integer version) {
    ProgramView found = version == null ? programs.byId(id(id)) : programs.byId(id(id), version);
    return Response.ok(found).tag(IfMatch.tag(found.version())).build();
  }

  @PUT
  @Path("programs/{id}")
  @RolesAllowed(Roles.THERAPIST)
  public Response rewrite(
      @PathParam("id") String id, @HeaderParam("If-Match") String tag, ProgramBody body) {
    present(body);
    ProgramView made =
        programs.rewrite(id(id), IfMatch.version(tag), body.content(templates), body.reason());
    return Response.ok(made).tag(IfMatch.tag(made.version())).build();
  }

  @POST
  @Idempotent
  @Path("programs/{id}/signature")
  @RolesAllowed(Roles.THERAPIST)
  public ProgramView sign(
      @PathParam("id") String id, @HeaderParam("If-Match") String tag, SignatureBody body) {
    present(body);
    return programs.sign(
        id(id),
        IfMatch.version(tag),
        Boolean.TRUE.equals(body.reviewed()),
        ProgramBody.word("dueKind", body.dueKind(), DueWords::kind),
        at(body.happenedAt(), body.lateReason()));
  }

  @POST
  @Idempotent
  @Path("programs/{id}/first-session")
  @RolesAllowed(Roles.THERAPIST)
  public ProgramView firstSession(@PathParam("id") String id, FirstSessionBody body) {
    return body == null
        ? programs.firstSession(id(id), null, EventTime.NOW)
        : programs.firstSession(id(id), body.words(), at(body.happenedAt(), body.lateReason()));
  }

  @POST
  @Idempotent
  @Path("programs/{id}/setting")
  @RolesAllowed(Roles.THERAPIST)
  public ProgramView setting(@PathParam("id") String id, SettingBody body) {
    present(body);
    if (body.unitTag() == null || body.unitTag().isBlank()) {
      throw new Malformed("unitTag", "Which unit was set? Name unitTag.");
    }
    return programs.confirmSetting(
        id(id),
        body.unitTag().strip(),
        !Boolean.FALSE.equals(body.matches()),
        at(body.happenedAt(), body.lateReason()));
  }

  @POST
  @Idempotent
  @Path("programs/{id}/pause")
  @RolesAllowed(Roles.THERAPIST)
  public ProgramView pause(@PathParam("id") String id, PauseBody body) {
    present(body);
    return programs.pause(id(id), body.from(), body.to(), body.reason());
  }

  @POST
  @Idempotent
  @Path("programs/{id}/resume")
  @RolesAllowed(Roles.THERAPIST)
  public ProgramView resume(@PathParam("id") String id, ResumeBody body) {
    present(body);
    return programs.resume(id(id), body.from());
  }

  @POST
  @Idempotent
  @Path("programs/{id}/stop")
  @RolesAllowed(Roles.THERAPIST)
  public ProgramView stop(@PathParam("id") String id, StopBody body) {
    present(body);
    return programs.stop(
        id(id),
        body.reason(),
        Boolean.TRUE.equals(body.abandoned()),
        at(body.happenedAt(), body.lateReason()));
  }

  @POST
  @Idempotent
  @Path("programs/{id}/hand-over")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public ProgramView handOver(@PathParam("id") String id, HandOverBody body) {
    present(body);
    return programs.handOver(id(id), Ids.field("therapistId", body.therapistId()));
  }

  @POST
  @Idempotent
  @Path("programs/{id}/hold")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public ProgramView hold(@PathParam("id") String id, HoldBody body) {
    present(body);
    return holds.hold(
        id(id),
        ProgramBody.word("reason", body.reason(), HoldReason::of),
        body.words(),
        at(body.happenedAt(), body.lateReason()));
  }

  @POST
  @Idempotent
  @Path("programs/{id}/end-decision")
  @RolesAllowed(Roles.THERAPIST)
  public EndDecisions.View endDecision(@PathParam("id") String id, EndBody body) {
    present(body);
    return ends.decide(
        id(id),
        ProgramBody.word("choice", body.choice(), EndChoice::of),
        body.words(),
        at(body.happenedAt(), body.lateReason()));
  }

  @POST
  @Idempotent
  @Path("programs/{id}/release")
  @RolesAllowed(Roles.THERAPIST)
  public ProgramView release(@PathParam("id") String id, ReleaseBody body) {
    return body == null
        ? holds.release(id(id), null, EventTime.NOW)
        : holds.release(id(id), body.words(), at(body.happenedAt(), body.lateReason()));
  }

  @GET
  @Path("programs/{id}/sessions")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public SessionsJson sessions(@PathParam("id") String id) {
    programs.byId(id(id));
    return new SessionsJson(sessions.of(id(id)), sessions.adherence(id(id)));
  }

  @POST
  @Idempotent
  @Path("programs/{id}/sessions")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST})
  public Response log(@PathParam("id") String id, SessionBody body) {
    present(body);
    SessionView made =
        sessions.log(
            id(id),
            new NewSession(
                body.on(),
                body.number(),
                ProgramBody.word("outcome", body.outcome(), Outcome::of),
                ProgramBody.word("source", body.source(), LogSource::of),
                body.contractions(),
                body.intensity(),
                body.pads(),
                body.skin(),
                Boolean.TRUE.equals(body.padsTrouble()),
                Boolean.TRUE.equals(body.skinTrouble()),
                body.note()),
            at(body.happenedAt(), body.lateReason()));
    return Response.status(Response.Status.CREATED).entity(made).build();
  }

  @POST
  @Idempotent
  @Path("programs/{id}/sessions/{session}/void")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST})
  public SessionView voided(
      @PathParam("id") String id, @PathParam("session") String session, VoidBody body) {
    present(body);
    return sessions.voided(id(id), id(session), body.reason());
  }

  private static EventTime at(OffsetDateTime happenedAt, String lateReason) {
    Instant when = happenedAt == null ? null : happenedAt.toInstant();
    return new EventTime(when, lateReason);
  }

  private static void present(Object body) {
    if (body == null) {
      throw new Malformed("body", "The body is missing.");
    }
  }

  static Long id(String text) {
    try {
      return Long.valueOf(text);
    } catch (NumberFormatException notOurs) {
      throw new NotFound("There is nothing with this number.");
    }
  }
}
