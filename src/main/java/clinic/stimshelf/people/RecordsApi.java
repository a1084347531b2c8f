package clinic.stimshelf.people;

import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/** What else is on record about a patient: own answers, clearances, orders, consents. */
@Path("/api/patients/{patient}")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class RecordsApi {
  @Inject Intakes intakes;
  @Inject Clearances clearances;
  @Inject Orders orders;
  @Inject Consents consents;

  record Made(String id) {}

  record IntakeEntry(
      String muscle,
      Side side,
      String language,
      String answeredBy,
      Means means,
      Map<String, Answer> answers,
      Instant happenedAt,
      String lateReason) {}

  record ClearanceEntry(
      String question,
      String muscle,
      Side side,
      String clearedBy,
      LocalDate clearedOn,
      LocalDate validUntil,
      String scope) {}

  record OrderEntry(
      String prescriber,
      LocalDate orderedOn,
      LocalDate endsOn,
      String ordered,
      String restrictions) {}

  record ConsentEntry(
      ConsentKind kind,
      String programId,
      Boolean given,
      String textVersion,
      String language,
      String signer,
      String relation,
      Means means,
      Instant happenedAt,
      String lateReason) {}

  record WithdrawalEntry(String reason) {}

  record ConsentJson(
      String id,
      ConsentKind kind,
      String programId,
      boolean given,
      String textVersion,
      String language,
      String signer,
      String relation,
      Means means,
      Instant signedAt) {}

  /** The patient's own answers before a treatment. */
  @POST
  @Idempotent
  @Path("intakes")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST})
  public Response intake(@PathParam("patient") String patient, IntakeEntry sent) {
    IntakeEntry entry = body(sent);
    return made(
        intakes.answer(
            new NewIntake(
                Ids.of(patient, "patient"),
                entry.muscle(),
                entry.side(),
                entry.language(),
                entry.answeredBy(),
                entry.means(),
                entry.answers(),
                entry.happenedAt(),
                entry.lateReason())));
  }

  @GET
  @Path("clearances")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public List<ClearanceView> clearances(@PathParam("patient") String patient) {
    return clearances.of(Ids.of(patient, "patient"));
  }

  @POST
  @Idempotent
  @Path("clearances")
  @RolesAllowed(Roles.THERAPIST)
  public Response clearance(@PathParam("patient") String patient, ClearanceEntry sent) {
    ClearanceEntry entry = body(sent);
    return made(
        clearances.record(
            new NewClearance(
                null,
                Ids.of(patient, "patient"),
                entry.question(),
                entry.muscle(),
                entry.side(),
                entry.clearedBy(),
                entry.clearedOn(),
                entry.validUntil(),
                entry.scope())));
  }

  @POST
  @Idempotent
  @Path("clearances/{id}/withdrawal")
  @RolesAllowed(Roles.THERAPIST)
  public List<ClearanceView> withdrawClearance(
      @PathParam("patient") String patient, @PathParam("id") String id, WithdrawalEntry sent) {
    clearances.withdraw(Ids.of(patient, "patient"), Ids.of(id, "clearance"), body(sent).reason());
    return clearances(patient);
  }

  @GET
  @Path("orders")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public List<OrderView> orders(@PathParam("patient") String patient) {
    return orders.of(Ids.of(patient, "patient"));
  }

  @POST
  @Idempotent
  @Path("orders")
  @RolesAllowed(Roles.THERAPIST)
  public Response order(@PathParam("patient") String patient, OrderEntry sent) {
    OrderEntry entry = body(sent);
    return made(
        orders.record(
            new NewOrder(
                null,
                Ids.of(patient, "patient"),
                entry.prescriber(),
                entry.orderedOn(),
                entry.endsOn(),
                entry.ordered(),
                entry.restrictions())));
  }

  @POST
  @Idempotent
  @Path("orders/{id}/withdrawal")
  @RolesAllowed(Roles.THERAPIST)
  public List<OrderView> withdrawOrder(
      @PathParam("patient") String patient, @PathParam("id") String id, WithdrawalEntry sent) {
    orders.withdraw(Ids.of(patient, "patient"), Ids.of(id, "order"), body(sent).reason());
    return orders(patient);
  }

  @GET
  @Path("consents")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public List<ConsentJson> consents(@PathParam("patient") String patient) {
    return consents.of(Ids.of(patient, "patient")).stream()
        .map(
            view ->
                new ConsentJson(
                    Ids.text(view.id()),
                    view.kind(),
                    Ids.text(view.programId()),
                    view.given(),
                    view.textVersion(),
                    view.language(),
                    view.signer(),
                    view.relation(),
                    view.means(),
                    view.signedAt()))
        .toList();
  }

  /** A consent, or with {@code given: false} a refusal. */
  @POST
  @Idempotent
  @Path("consents")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST})
  public Response consent(@PathParam("patient") String patient, ConsentEntry sent) {
    ConsentEntry entry = body(sent);
    return made(
        consents.record(
            new NewConsent(
                null,
                Ids.of(patient, "patient"),
                entry.kind(),
                Ids.optional(entry.programId(), "program"),
                !Boolean.FALSE.equals(entry.given()),
                entry.textVersion(),
                entry.language(),
                entry.signer(),
                entry.relation(),
                entry.means(),
                entry.happenedAt(),
                entry.lateReason())));
  }

  private static <T> T body(T sent) {
    if (Objects.isNull(sent)) {
      throw new Malformed("body", "The call needs a body in JSON.");
    }
    return sent;
  }

  private static Response made(Long id) {
    return Response.status(Response.Status.CREATED).entity(new Made(Ids.text(id))).build();
  }
}
