package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.IfMatch;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DELETE;
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
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.function.Function;

/** The schedule. */
@Path("/api/appointments")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Retried
class AppointmentApi {
  @Inject Appointments appointments;
  @Inject Visits visits;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject Shelf shelf;
  @Inject PacksUsed packs;
  @Inject SignedIn signedIn;

  record AppointmentJson(
      String id,
      String location,
      String patientId,
      String chartNumber,
      String therapistId,
      String therapist,
      String room,
      OffsetDateTime startsAt,
      OffsetDateTime endsAt,
      OffsetDateTime treatmentStartsAt,
      OffsetDateTime treatmentEndsAt,
      int channels,
      String unitTag,
      boolean unitPlanned,
      String loanedUnitTag,
      boolean loanedUnitForgotten,
      AppointmentState state,
      String reason,
      String note,
      OffsetDateTime arrivedAt,
      OffsetDateTime completedAt,
      String warning,
      int version) {}

  /** An appointment as sent: the patient by id or chart number, the room by name. */
  record AppointmentEntryJson(
      String location,
      String patientId,
      String chartNumber,
      String therapistId,
      String room,
      String unitTag,
      Instant startsAt,
      Instant endsAt,
      Instant treatmentStartsAt,
      Instant treatmentEndsAt,
      int channels,
      String note) {}

  record ArrivalEntry(String unitTag, Instant happenedAt, String lateReason) {}

  /** A pack opened for the treatment: of a lot, or of the type's lot that expires first. */
  record PackEntry(String lotId, String code, int packs) {}

  record CompletionEntry(
      AppointmentState outcome,
      String reason,
      String unitTag,
      List<PackEntry> packs,
      Instant happenedAt,
      String lateReason) {}

  record CancellationEntry(String reason, Instant happenedAt, String lateReason) {}

  record ForgottenEntry(boolean forgotten) {}

  record NoShowEntry(Instant happenedAt, String lateReason) {}

  /** By location, days (both included), patient and state. */
  @GET
  public Page<AppointmentJson> list(
      @QueryParam("location") String location,
      @QueryParam("from") String from,
      @QueryParam("to") String to,
      @QueryParam("patientId") String patientId,
      @QueryParam("state") String state,
      @BeanParam Paging paging) {
    return appointments
        .search(
            signedIn.locationsOr(location),
            read("from", from, LocalDate::parse),
            read("to", to, LocalDate::parse),
            Ids.optional(patientId, "patient"),
            read("state", state, AppointmentState::of),
            paging)
        .map(AppointmentApi::json);
  }

  @POST
  @Idempotent
  public Response book(AppointmentEntryJson sent) {
    AppointmentEntryJson entry = body(sent);
    Long id =
        appointments.book(wanted(entry, signedIn.locationOr(entry.location()), patient(entry)));
    AppointmentView view = appointments.byId(id);
    return Response.created(URI.create("/api/appointments/" + id))
        .tag(IfMatch.tag(view.version()))
        .entity(json(view))
        .build();
  }

  @GET
  @Path("{id}")
  public Response one(@PathParam("id") String id) {
    return answer(Ids.of(id, "appointment"));
  }

  /** Moves a booked appointment; patient and location may be left out. */
  @PUT
  @Path("{id}")
  public Response move(
      @PathParam("id") String id, @HeaderParam("If-Match") String read, AppointmentEntryJson sent) {
    AppointmentEntryJson entry = body(sent);
    AppointmentView before = appointments.byId(Ids.of(id, "appointment"));
    Long patient =
        entry.patientId() == null && entry.chartNumber() == null
            ? before.patientId()
            : patient(entry);
    Long place =
        entry.location() == null ? before.locationId() : signedIn.locationOr(entry.location());
    appointments.move(before.id(), IfMatch.version(read), wanted(entry, place, patient));
    return answer(before.id());
  }

  /** Cancels. */
  @DELETE
  @Path("{id}")
  public Response drop(@PathParam("id") String id, @QueryParam("reason") String reason) {
    appointments.cancel(Ids.of(id, "appointment"), reason, null, null);
    return answer(Ids.of(id, "appointment"));
  }

  /** The patient came; with a unit, its treatment begins. */
  @POST
  @Idempotent
  @Path("{id}/arrival")
  public Response arrival(@PathParam("id") String id, ArrivalEntry sent) {
    ArrivalEntry entry = sent == null ? new ArrivalEntry(null, null, null) : sent;
    visits.arrive(
        Ids.of(id, "appointment"), entry.unitTag(), entry.happenedAt(), entry.lateReason());
    return answer(Ids.of(id, "appointment"));
  }

  /** A treatment begins with a unit, after the patient arrived. */
  @POST
  @Idempotent
  @Path("{id}/treatment")
  public Response treatment(@PathParam("id") String id, ArrivalEntry sent) {
    ArrivalEntry entry = body(sent);
    visits.begin(
        Ids.of(id, "appointment"), entry.unitTag(), entry.happenedAt(), entry.lateReason());
    return answer(Ids.of(id, "appointment"));
  }

  /** Done, partial or not done, and why. */
  @POST
  @Idempotent
  @Path("{id}/completion")
  public Response completion(@PathParam("id") String id, CompletionEntry sent) {
    CompletionEntry entry = body(sent);
    visits.complete(
        Ids.of(id, "appointment"),
        new Visits.Completion(
            entry.outcome(),
            entry.reason(),
            entry.unitTag(),
            packs.of(appointments.byId(Ids.of(id, "appointment")).locationId(), entry.packs()),
            entry.happenedAt(),
            entry.lateReason()));
    return answer(Ids.of(id, "appointment"));
  }

  /** The patient came without the unit on loan; {@code false}: has it after all. */
  @POST
  @Idempotent
  @Path("{id}/forgotten-unit")
  public Response forgottenUnit(@PathParam("id") String id, ForgottenEntry sent) {
    appointments.forgotten(Ids.of(id, "appointment"), sent == null || sent.forgotten());
    return answer(Ids.of(id, "appointment"));
  }

  @POST
  @Idempotent
  @Path("{id}/no-show")
  public Response noShow(@PathParam("id") String id, NoShowEntry sent) {
    NoShowEntry entry = sent == null ? new NoShowEntry(null, null) : sent;
    visits.noShow(Ids.of(id, "appointment"), entry.happenedAt(), entry.lateReason());
    return answer(Ids.of(id, "appointment"));
  }

  @POST
  @Idempotent
  @Path("{id}/cancellation")
  public Response cancellation(@PathParam("id") String id, CancellationEntry sent) {
    CancellationEntry entry = body(sent);
    appointments.cancel(
        Ids.of(id, "appointment"), entry.reason(), entry.happenedAt(), entry.lateReason());
    return answer(Ids.of(id, "appointment"));
  }

  private Long patient(AppointmentEntryJson entry) {
    if (entry.patientId() != null) {
      return Ids.of(entry.patientId(), "patient");
    }
    if (entry.chartNumber() == null) {
      throw new Refusal("patientId", "Say who comes: patientId or chartNumber.");
    }
    return patients
        .byChart(entry.chartNumber())
        .orElseThrow(
            () -> new NotFound("No patient has the chart number " + entry.chartNumber() + "."))
        .id();
  }

  private NewAppointment wanted(AppointmentEntryJson entry, Long locationId, Long patientId) {
    Long roomId = null;
    if (entry.room() != null) {
      roomId =
          locations.rooms(locationId).stream()
              .filter(room -> room.name().equalsIgnoreCase(entry.room().strip()))
              .findFirst()
              .orElseThrow(
                  () -> new Refusal("room", "The location has no room “" + entry.room() + "”."))
              .id();
    }
    return new NewAppointment(
        locationId,
        patientId,
        Ids.optional(entry.therapistId(), "therapist"),
        roomId,
        entry.unitTag() == null ? null : shelf.byTag(entry.unitTag()).id(),
        entry.startsAt(),
        entry.endsAt(),
        entry.treatmentStartsAt(),
        entry.treatmentEndsAt(),
        entry.channels(),
        entry.note());
  }

  private Response answer(Long id) {
    AppointmentView view = appointments.byId(id);
    return Response.ok(json(view)).tag(IfMatch.tag(view.version())).build();
  }

  private static <T> T body(T sent) {
    if (sent == null) {
      throw new Malformed("body", "The call needs a body in JSON.");
    }
    return sent;
  }

  private static <T> T read(String field, String text, Function<String, T> reader) {
    if (text == null || text.isBlank()) {
      return null;
    }
    try {
      return reader.apply(text.strip());
    } catch (DateTimeException notADay) {
      throw new Malformed(field, "“" + text + "” is not a day such as 2026-03-14.");
    } catch (IllegalArgumentException unknown) {
      throw new Malformed(field, unknown.getMessage());
    }
  }

  private static AppointmentJson json(AppointmentView view) {
    return new AppointmentJson(
        Ids.text(view.id()),
        view.location(),
        Ids.text(view.patientId()),
        view.chartNumber(),
        Ids.text(view.therapistId()),
        view.therapist(),
        view.room(),
        at(view, view.startsAt()),
        at(view, view.endsAt()),
        at(view, view.treatmentStartsAt()),
        at(view, view.treatmentEndsAt()),
        view.channels(),
        view.unit() == null ? null : view.unit().tag(),
        view.unitPlanned(),
        view.loaned() == null ? null : view.loaned().unitTag(),
        view.forgotten(),
        view.state(),
        view.reason(),
        view.note(),
        at(view, view.arrivedAt()),
        at(view, view.completedAt()),
        view.warning(),
        view.version());
  }

  private static OffsetDateTime at(AppointmentView view, Instant instant) {
    return instant == null ? null : instant.atZone(view.zone()).toOffsetDateTime();
  }
}
