package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
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
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Several appointments at once: a proposal with why, then all of them or none. */
@Path("/schedule/run")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class RunPages {
  @Inject Runs runs;
  @Inject BookingForm booking;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /**
   * @param proposal {@code null} before one was asked for
   * @param wished tells the proposed wish from another
   * @param patient whom it is for, once known
   */
  @CheckedTemplate(basePath = "appointments", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record RunOfVisits(
      LocationView place,
      BookingForm.Choices choices,
      Form form,
      RunProposal proposal,
      PatientView patient,
      String wished)
      implements TemplateInstance {}

  @GET
  public TemplateInstance begin(@QueryParam("patient") String patient) {
    PatientView known = patient == null ? null : patients.byId(Ids.of(patient, "patient"));
    Form form = Form.empty().prefill("chart", known == null ? null : known.chartNumber());
    return page(form, null, known);
  }

  @POST
  @Retried
  public Response run(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    Long here = signedIn.locationOr(null);
    Optional<PatientView> patient =
        form.has("chart") ? patients.byChart(form.value("chart")) : Optional.empty();
    if (patient.isEmpty()) {
      form.wrong(
          "chart",
          form.has("chart")
              ? "No patient here has this chart number. Look under Patients."
              : "Who comes? Type or scan the chart number.");
    }
    RunWish wish = read(form, here, patient.map(PatientView::id).orElse(null));
    if (!form.ok()) {
      return SchedulePages.answer(page(form, null, patient.orElse(null)));
    }
    try {
      if (form.value("do").equals("book")) {
        if (!form.value("wished").equals(wish.mark())) {
          throw new Refusal(
              "visits",
              "What is wanted was changed after the proposal.",
              "Ask for a new proposal, then book it.");
        }
        List<RunProposal.Visit> chosen = chosen(form, here);
        runs.book(wish, chosen);
        LocalDate first = chosen.get(0).at().toLocalDate();
        return Response.seeOther(URI.create("/schedule?day=" + first + "&done=run")).build();
      }
      return Response.ok(page(form, runs.propose(wish), patient.get(), wish.mark())).build();
    } catch (Refusal refusal) {
      form.refused(refusal);
      return SchedulePages.answer(page(form, null, patient.get()));
    }
  }

  private static RunWish read(Form form, Long here, Long patientId) {
    LocalDate from = form.day("from", "The first day");
    LocalTime at = form.optionalTime("at", "The wished time");
    if (at == null && form.error("at") == null) {
      form.wrong("at", "The wished time is missing, such as 14:30.");
    }
    return new RunWish(
        here,
        patientId,
        form.whole("visits", "Appointments", 1, RunWish.MOST_VISITS),
        form.whole("perWeek", "Appointments a week", 1, RunWish.MOST_A_WEEK),
        form.whole("hoursApart", "Hours apart", 0, RunWish.MOST_HOURS_APART),
        from,
        at,
        form.whole("minutes", "The length in minutes", 5, 480),
        number(form, "therapist"),
        number(form, "room"),
        form.whole("channels", "The channels", 0, BookingRules.MOST_CHANNELS),
        form.optionalText("note", "The note", 500));
  }

  private static Long number(Form form, String name) {
    return form.read(name, Long::valueOf, one -> true, "Choose one of the list.");
  }

  /** What the proposal sent along; a key that was tampered with is none. */
  private List<RunProposal.Visit> chosen(Form form, Long here) {
    ZoneId zone = locations.zone(here);
    List<RunProposal.Visit> chosen = new ArrayList<>();
    for (String key : form.values("visit")) {
      String[] parts = key.split("\\|", 2);
      try {
        chosen.add(
            new RunProposal.Visit(
                Instant.parse(parts[0]).atZone(zone), Long.valueOf(parts[1]), ""));
      } catch (DateTimeException | NumberFormatException | ArrayIndexOutOfBoundsException unfit) {
        throw new Refusal("visits", "One of the times cannot be read.", "Ask for a new proposal.");
      }
    }
    return chosen;
  }

  private RunOfVisits page(Form form, RunProposal proposal, PatientView patient) {
    return page(form, proposal, patient, "");
  }

  private RunOfVisits page(Form form, RunProposal proposal, PatientView patient, String wished) {
    Long here = signedIn.locationOr(null);
    form.prefill("from", locations.today(here))
        .prefill("at", "09:00")
        .prefill("visits", 12)
        .prefill("perWeek", 2)
        .prefill("hoursApart", 48)
        .prefill("minutes", 45)
        .prefill("channels", 0);
    return new RunOfVisits(
        locations.byId(here), booking.choices(here), form, proposal, patient, wished);
  }
}
