package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.DayHours;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.Option;
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
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;

/** A location's day: who comes when, to whom, with which unit. */
@Path("/schedule")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class SchedulePages {
  @Inject Appointments appointments;
  @Inject UnitPlans plans;
  @Inject DayUpsets upsets;
  @Inject BookingForm booking;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Clock clock;

  /** A treatment whose unit should be another one than is written down. */
  record Difference(AppointmentView appointment, String becomes, boolean lost) {}

  @CheckedTemplate(basePath = "appointments", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ScheduleDay(
      LocationView place,
      LocalDate day,
      LocalDate before,
      LocalDate after,
      boolean open,
      List<AppointmentView> appointments,
      long lacking,
      PlannedDay plan,
      Map<Long, PlannedDay.Line> lines,
      LanePicture lanes,
      List<Difference> differing,
      List<Option> upsets,
      List<String> warnings,
      boolean bringsIn,
      BookingForm.Choices choices,
      Form form,
      String done)
      implements TemplateInstance {}

  @GET
  public TemplateInstance day(
      @QueryParam("day") String day,
      @QueryParam("done") String done,
      @QueryParam("booked") String booked) {
    return page(read(day), Form.empty(), words(done), booked);
  }

  private static String words(String done) {
    if ("run".equals(done)) {
      return "All appointments of the run are booked.";
    }
    if ("planned".equals(done)) {
      return "The plan is written down.";
    }
    return "booked".equals(done) ? "The appointment is booked." : "";
  }

  @POST
  @Retried
  public Response book(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    Long here = signedIn.locationOr(null);
    LocalDate shown = read(form.value("day"));
    try {
      NewAppointment wanted = booking.read(form, here, null).orElse(null);
      if (wanted != null) {
        Long id = appointments.book(wanted);
        return Response.seeOther(URI.create("/schedule?day=" + shown + "&done=booked&booked=" + id))
            .build();
      }
    } catch (Refusal refusal) {
      form.refused(refusal);
    } catch (InUse taken) {
      form.wrong("time", taken.getMessage());
    }
    return answer(page(shown, form, "", null));
  }

  static Response answer(TemplateInstance page) {
    return Response.status(422)
        .type(MediaType.TEXT_HTML_TYPE.withCharset("UTF-8"))
        .entity(page.render())
        .build();
  }

  private ScheduleDay page(LocalDate day, Form form, String done, String booked) {
    Long here = signedIn.locationOr(null);
    List<AppointmentView> found = appointments.ofDay(here, day);
    Map<Long, AppointmentView> views =
        found.stream().collect(Collectors.toMap(AppointmentView::id, Function.identity()));
    PlannedDay plan = plans.of(here, day);
    List<DayHours> hours = locations.hours(here, day);
    form.prefill("day", day).prefill("minutes", 45).prefill("channels", 0);
    return new ScheduleDay(
        locations.byId(here),
        day,
        day.minusDays(1),
        day.plusDays(1),
        !hours.isEmpty(),
        found,
        plan.unserved().size(),
        plan,
        plan.lines().stream()
            .collect(Collectors.toMap(PlannedDay.Line::appointmentId, Function.identity())),
        LanePicture.of(
            plan,
            views,
            hours.isEmpty() ? LocalTime.of(8, 0) : hours.get(0).opens(),
            hours.isEmpty() ? LocalTime.of(18, 0) : hours.get(hours.size() - 1).closes(),
            clock.instant()),
        plan.differing().stream()
            .map(
                line ->
                    new Difference(views.get(line.appointmentId()), line.unitTag(), line.lost()))
            .toList(),
        upsets.of(here, day).stream()
            .map(upset -> new Option(upset.id.toString(), upset.words))
            .toList(),
        found.stream()
            .filter(one -> one.id().toString().equals(booked))
            .flatMap(one -> one.warnings().stream())
            .toList(),
        !signedIn.has(Roles.THERAPIST),
        booking.choices(here),
        form,
        done);
  }

  private LocalDate read(String day) {
    return read(day, locations.today(signedIn.locationOr(null)));
  }

  static LocalDate read(String day, LocalDate otherwise) {
    try {
      return day == null || day.isBlank() ? otherwise : Days.parse(day.strip());
    } catch (DateTimeException notADay) {
      return otherwise;
    }
  }
}
