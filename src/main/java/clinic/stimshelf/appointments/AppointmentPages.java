package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.audit.TrailEntry;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Stale;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.List;
import java.util.function.BiConsumer;
import java.util.stream.Stream;

/** One appointment and every turn it can take. */
@Path("/schedule/{id}")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Retried
class AppointmentPages {
  private static final List<Option> OUTCOMES =
      Stream.of(AppointmentState.DONE, AppointmentState.PARTIAL, AppointmentState.NOT_DONE)
          .map(state -> new Option(state.word(), state.words()))
          .toList();

  @Inject Appointments appointments;
  @Inject Visits visits;
  @Inject PacksUsed packs;
  @Inject BookingForm booking;
  @Inject SignedIn signedIn;
  @Inject Trail trail;

  @CheckedTemplate(basePath = "appointments", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record AppointmentPage(
      AppointmentView appointment,
      BookingForm.Choices choices,
      List<Option> outcomes,
      List<Option> pads,
      Form form,
      List<TrailEntry> trail,
      boolean manager,
      String done)
      implements TemplateInstance {}

  @GET
  public TemplateInstance show(@PathParam("id") String id, @QueryParam("done") String done) {
    return page(Ids.of(id, "appointment"), null, done == null ? "" : done(done));
  }

  @POST
  @Path("arrival")
  public Response arrive(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "arrived",
        (one, form) ->
            visits.arrive(one, form.value("unitTag"), at(form, one), form.value("lateReason")));
  }

  @POST
  @Path("treatment")
  public Response begin(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "begun",
        (one, form) ->
            visits.begin(
                one,
                form.text("unitTag", "The unit's tag", 32),
                at(form, one),
                form.value("lateReason")));
  }

  @POST
  @Path("completion")
  public Response complete(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "completed",
        (one, form) -> {
          AppointmentState outcome =
              form.read("outcome", AppointmentState::of, state -> true, "Choose what came of it.");
          Instant at = at(form, one);
          form.throwIfWrong();
          visits.complete(
              one,
              new Visits.Completion(
                  outcome,
                  form.value("reason"),
                  form.value("unitTag"),
                  packs.of(appointments.byId(one).locationId(), form),
                  at,
                  form.value("lateReason")));
        });
  }

  @POST
  @Path("no-show")
  public Response noShow(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "no-show",
        (one, form) -> visits.noShow(one, at(form, one), form.value("lateReason")));
  }

  @POST
  @Path("forgotten-unit")
  public Response forgotten(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "forgotten",
        (one, form) -> appointments.forgotten(one, !form.value("forgotten").equals("no")));
  }

  @POST
  @Path("cancellation")
  public Response cancel(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "cancelled",
        (one, form) ->
            appointments.cancel(
                one, form.value("reason"), at(form, one), form.value("lateReason")));
  }

  @POST
  @Path("move")
  public Response move(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "moved",
        (one, form) -> {
          AppointmentView before = appointments.byId(one);
          Integer version = form.optionalWhole("version", "The version", 0, Integer.MAX_VALUE);
          NewAppointment wanted =
              booking.read(form, before.locationId(), before.patientId()).orElse(null);
          form.throwIfWrong();
          appointments.move(one, version, wanted);
        });
  }

  private Response turn(
      String id, MultivaluedMap<String, String> typed, String done, BiConsumer<Long, Form> step) {
    Long one = Ids.of(id, "appointment");
    Form form = Form.of(typed);
    AppointmentView view = appointments.byId(one);
    try {
      step.accept(one, form);
      form.throwIfWrong();
      String back =
          form.value("back").equals("day")
              ? "/schedule?day=" + view.day()
              : "/schedule/" + one + "?done=" + done;
      return Response.seeOther(URI.create(back)).build();
    } catch (Refusal refusal) {
      if (form.ok()) {
        form.refused(refusal);
      }
    } catch (InUse taken) {
      form.wrong("unitTag", taken.getMessage());
    } catch (NotFound unknown) {
      form.wrong("unitTag", unknown.getMessage());
    } catch (Stale stale) {
      form.wrong(null, stale.getMessage());
    }
    return SchedulePages.answer(page(one, form, ""));
  }

  private AppointmentPage page(Long id, Form typed, String done) {
    AppointmentView view = appointments.byId(id);
    Form form = booking.filled(view);
    if (typed != null) {
      form = typed;
      Form stands = booking.filled(view);
      for (String name :
          List.of(
              "version",
              "day",
              "time",
              "minutes",
              "therapist",
              "room",
              "channels",
              "unit",
              "note")) {
        form.prefill(name, stands.has(name) ? stands.value(name) : null);
      }
    }
    boolean manager = signedIn.has(Roles.MANAGER);
    return new AppointmentPage(
        view,
        booking.choices(view.locationId()),
        OUTCOMES,
        packs.choices(),
        form,
        manager ? trail.of(Subject.of("appointment", id)) : List.of(),
        manager,
        done);
  }

  private Instant at(Form form, Long id) {
    LocalDateTime time = form.optionalDayAndTime("happenedAt", "The time");
    return time == null ? null : time.atZone(appointments.byId(id).zone()).toInstant();
  }

  private static String done(String what) {
    return switch (what) {
      case "arrived" -> "The patient is here.";
      case "begun" -> "The treatment has begun.";
      case "completed" ->
          "The appointment is over. A unit that was used is to be wiped; a treatment is logged as a session.";
      case "no-show" -> "Entered as a no-show.";
      case "cancelled" -> "The appointment is cancelled.";
      case "forgotten" -> "Noted. The plan of the day follows.";
      case "moved" -> "The appointment is moved.";
      default -> "";
    };
  }
}
