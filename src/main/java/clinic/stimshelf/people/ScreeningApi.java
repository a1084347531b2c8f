package clinic.stimshelf.people;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.NewScreening.Confirmed;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Reason;
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
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/** What a therapist confirmed about a region and side, and what of it stands open. */
@Path("/api/patients/{patient}/screenings")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class ScreeningApi {
  @Inject Screenings screenings;
  @Inject Patients patients;
  @Inject Locations locations;

  /** An answer; the acceptance is a licensed PT's reason. */
  record AnswerEntry(String key, Answer answer, String note, String acceptance) {}

  record ScreeningEntry(
      String muscle, Side side, List<AnswerEntry> answers, Instant happenedAt, String lateReason) {}

  record AcceptanceEntry(String key, String reason) {}

  record OutdatedEntry(String region, String reason) {}

  record AnswerJson(
      String key,
      Answer answer,
      String note,
      Effect effect,
      String acceptedBy,
      Instant acceptedAt,
      String acceptedReason) {}

  record ScreeningJson(
      String id,
      String patientId,
      String region,
      Side side,
      String screenedBy,
      Instant screenedAt,
      boolean superseded,
      String outdatedReason,
      List<AnswerJson> answers) {}

  record OpenJson(String key, String question, String note) {}

  record StatusJson(
      boolean current,
      boolean clear,
      String screeningId,
      List<OpenJson> openContraindications,
      List<OpenJson> openHolds,
      List<OpenJson> unacceptedPrecautions,
      List<Reason> reasons) {}

  /** The patient's screenings, newest first. */
  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public List<ScreeningJson> list(@PathParam("patient") String patient) {
    return screenings.of(Ids.of(patient, "patient")).stream().map(ScreeningApi::json).toList();
  }

  /** What stands against treating the muscle; {@code home=false} for treatment in the clinic. */
  @GET
  @Path("status")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public StatusJson status(
      @PathParam("patient") String patient,
      @QueryParam("muscle") String muscle,
      @QueryParam("side") String side,
      @QueryParam("home") Boolean home) {
    Long id = Ids.of(patient, "patient");
    LocalDate today = locations.today(patients.byId(id).locationId());
    return json(screenings.status(id, muscle, side(side), today, !Boolean.FALSE.equals(home)));
  }

  @POST
  @Idempotent
  @RolesAllowed(Roles.THERAPIST)
  public Response screen(@PathParam("patient") String patient, ScreeningEntry entry) {
    if (entry == null) {
      throw new Malformed("body", "The call needs a body in JSON.");
    }
    Long id = Ids.of(patient, "patient");
    List<Confirmed> answers =
        entry.answers() == null
            ? List.of()
            : entry.answers().stream()
                .map(one -> new Confirmed(one.key(), one.answer(), one.note(), one.acceptance()))
                .toList();
    Long made =
        screenings.screen(
            new NewScreening(
                id, entry.muscle(), entry.side(), answers, entry.happenedAt(), entry.lateReason()));
    return Response.status(Response.Status.CREATED).entity(one(id, made)).build();
  }

  /** A licensed PT accepts a precaution. */
  @POST
  @Idempotent
  @Path("{id}/acceptances")
  @RolesAllowed(Roles.THERAPIST)
  public ScreeningJson accept(
      @PathParam("patient") String patient,
      @PathParam("id") String screening,
      AcceptanceEntry entry) {
    if (entry == null) {
      throw new Malformed("body", "The call needs a body in JSON.");
    }
    Long id = Ids.of(patient, "patient");
    Long made = Ids.of(screening, "screening");
    screenings.accept(id, made, entry.key(), entry.reason());
    return one(id, made);
  }

  /** Something changed: what was confirmed no longer holds. */
  @POST
  @Idempotent
  @Path("outdated")
  @RolesAllowed(Roles.THERAPIST)
  public List<ScreeningJson> outdate(@PathParam("patient") String patient, OutdatedEntry entry) {
    if (entry == null) {
      throw new Malformed("body", "The call needs a body in JSON.");
    }
    screenings.outdate(Ids.of(patient, "patient"), entry.region(), entry.reason());
    return list(patient);
  }

  private ScreeningJson one(Long patient, Long screening) {
    return screenings.of(patient).stream()
        .filter(view -> view.id().equals(screening))
        .findFirst()
        .map(ScreeningApi::json)
        .orElseThrow();
  }

  static Side side(String word) {
    try {
      return Side.of(word);
    } catch (IllegalArgumentException unknown) {
      throw new Malformed("side", unknown.getMessage());
    }
  }

  private static StatusJson json(ScreeningStatus status) {
    return new StatusJson(
        status.current(),
        status.clear(),
        Ids.text(status.screeningId()),
        json(status.openContraindications()),
        json(status.openHolds()),
        json(status.unacceptedPrecautions()),
        status.why());
  }

  private static List<OpenJson> json(List<ScreeningStatus.Open> open) {
    return open.stream().map(one -> new OpenJson(one.key(), one.question(), one.note())).toList();
  }

  private static ScreeningJson json(ScreeningView view) {
    return new ScreeningJson(
        Ids.text(view.id()),
        Ids.text(view.patientId()),
        view.region(),
        view.side(),
        view.screenedByName(),
        view.screenedAt(),
        view.superseded(),
        view.outdatedReason(),
        view.answers().stream()
            .map(
                line ->
                    new AnswerJson(
                        line.key(),
                        line.answer(),
                        line.note(),
                        line.effect(),
                        line.acceptedByName(),
                        line.acceptedAt(),
                        line.acceptedReason()))
            .toList());
  }
}
