package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
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
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Supplier;

/** A unit failed, a therapist was called out: enter it, then see what that changed. */
@Path("/schedule/upsets")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Retried
class UpsetPages {
  private static final int FREE_SHOWN = 5;

  @Inject DayUpsets upsets;
  @Inject UnitPlans plans;
  @Inject BookingForm booking;
  @Inject FreeTimes free;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  @CheckedTemplate(basePath = "appointments", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record UpsetEntry(BookingForm.Choices choices, Form form) implements TemplateInstance {}

  /**
   * @param free nearest free times, by the number of an appointment nobody could be found for
   */
  @CheckedTemplate(basePath = "appointments", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record UpsetPage(DayUpsets.UpsetView upset, ZoneId zone, Map<Long, String> free)
      implements TemplateInstance {}

  @GET
  public TemplateInstance entry(@QueryParam("unit") String unit) {
    return page(Form.empty().prefill("unitTag", unit));
  }

  @POST
  @Path("unit")
  public Response unitFailed(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    Long here = signedIn.locationOr(null);
    return turn(
        form,
        () -> {
          String tag = form.text("unitTag", "The unit's tag", 32);
          String words = form.text("words", "What is wrong", 300);
          form.throwIfWrong();
          return upsets.unitFailed(here, tag, words);
        });
  }

  @POST
  @Path("therapist")
  public Response calledOut(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    Long here = signedIn.locationOr(null);
    return turn(
        form,
        () -> {
          Long who = form.read("therapist", Long::valueOf, id -> true, "Choose one of the list.");
          LocalDate day = form.day("day", "The day");
          LocalTime from = form.optionalTime("from", "The time");
          if (who == null && form.error("therapist") == null) {
            form.wrong("therapist", "Choose who was called out.");
          }
          form.throwIfWrong();
          return upsets.calledOut(here, who, day, from, null);
        });
  }

  /** Writes the proposed plan of a day down. */
  @POST
  @Path("plan")
  public Response takeOver(MultivaluedMap<String, String> typed) {
    Long here = signedIn.locationOr(null);
    LocalDate day = SchedulePages.read(Form.of(typed).value("day"), locations.today(here));
    plans.takeOver(here, day);
    return Response.seeOther(URI.create("/schedule?day=" + day + "&done=planned")).build();
  }

  @GET
  @Path("{id}")
  public TemplateInstance show(@PathParam("id") String id) {
    DayUpsets.UpsetView upset = upsets.byId(Ids.of(id, "change"));
    Map<Long, String> times = new HashMap<>();
    upset.open().stream()
        .map(DayUpsets.Change::appointment)
        .filter(one -> !one.state().over())
        .limit(FREE_SHOWN)
        .forEach(one -> times.put(one.id(), free.words(wanted(one), one.id())));
    return new UpsetPage(upset, locations.zone(signedIn.locationOr(null)), times);
  }

  private static NewAppointment wanted(AppointmentView one) {
    return new NewAppointment(
        one.locationId(),
        one.patientId(),
        null,
        one.roomId(),
        null,
        one.startsAt(),
        one.endsAt(),
        one.treatmentStartsAt(),
        one.treatmentEndsAt(),
        one.channels(),
        null);
  }

  private Response turn(Form form, Supplier<Long> step) {
    try {
      return Response.seeOther(URI.create("/schedule/upsets/" + step.get())).build();
    } catch (Refusal refusal) {
      if (form.ok()) {
        form.refused(refusal);
      }
    } catch (InUse | NotFound other) {
      form.wrong("unitTag", other.getMessage());
    }
    return SchedulePages.answer(page(form));
  }

  private UpsetEntry page(Form form) {
    Long here = signedIn.locationOr(null);
    form.prefill("day", locations.today(here));
    return new UpsetEntry(booking.choices(here), form);
  }
}
