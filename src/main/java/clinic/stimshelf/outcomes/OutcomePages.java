package clinic.stimshelf.outcomes;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.people.Side;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
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
import java.math.BigDecimal;
import java.net.URI;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;

/** What was measured on a patient: the course drawn, every value listed, a new one entered. */
@Path("/patients/{patient}/outcomes")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.THERAPIST, Roles.FRONT_DESK, Roles.MANAGER})
@Blocking
@Retried
class OutcomePages {
  @Inject Outcomes outcomes;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** The page. */
  @CheckedTemplate(basePath = "outcomes", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record OutcomePage(
      PatientView patient,
      List<OutcomeView> all,
      List<CourseDrawing> courses,
      Threshold threshold,
      List<Option> measures,
      List<Option> sides,
      boolean mayWrite,
      ZoneId zone,
      Form form)
      implements TemplateInstance {}

  @GET
  public TemplateInstance show(
      @PathParam("patient") String patient, @QueryParam("program") String program) {
    Long known = Ids.optional(program, "program");
    return page(Ids.of(patient, "patient"), Form.empty().prefill("program", known));
  }

  @POST
  @RolesAllowed(Roles.THERAPIST)
  public Response record(
      @PathParam("patient") String patient, MultivaluedMap<String, String> typed) {
    Long who = Ids.of(patient, "patient");
    Form form = Form.of(typed);
    try {
      LocalDateTime happened = form.optionalDayAndTime("happenedAt", "The time");
      ZoneId zone = locations.zone(patients.byId(who).locationId());
      NewOutcome entry =
          new NewOutcome(
              null,
              who,
              form.read("program", Long::valueOf, one -> true, "Open the page from the program."),
              form.read("measure", Measure::of, one -> true, "Choose what was measured."),
              form.read("side", Side::of, one -> true, "Choose left or right."),
              form.value("what"),
              form.optionalNumber("involved", "The involved side", BigDecimal.ZERO, Outcomes.MOST),
              form.optionalNumber("uninvolved", "The other side", BigDecimal.ZERO, Outcomes.MOST),
              form.value("note"),
              happened == null ? null : happened.atZone(zone).toInstant(),
              form.value("lateReason"));
      form.throwIfWrong();
      outcomes.record(entry);
      return Response.seeOther(URI.create("/patients/" + who + "/outcomes")).build();
    } catch (Refusal refusal) {
      return again(who, form, refusal);
    }
  }

  @POST
  @Path("{outcome}/void")
  @RolesAllowed(Roles.THERAPIST)
  public Response voided(
      @PathParam("patient") String patient,
      @PathParam("outcome") String outcome,
      MultivaluedMap<String, String> typed) {
    Long who = Ids.of(patient, "patient");
    Form form = Form.of(typed);
    try {
      outcomes.voided(who, Ids.of(outcome, "measurement"), form.value("reason"));
      return Response.seeOther(URI.create("/patients/" + who + "/outcomes")).build();
    } catch (Refusal refusal) {
      return again(who, form, refusal);
    }
  }

  private Response again(Long who, Form form, Refusal refusal) {
    return Response.status(422)
        .type(MediaType.TEXT_HTML_TYPE.withCharset("UTF-8"))
        .entity(page(who, form.ok() ? form.refused(refusal) : form).render())
        .build();
  }

  private OutcomePage page(Long who, Form form) {
    PatientView patient = patients.byId(who);
    List<OutcomeView> all = outcomes.of(who);
    ZoneId zone = locations.zone(patient.locationId());
    Threshold threshold = outcomes.threshold(patient);
    all.stream()
        .filter(one -> one.voidedAt() == null)
        .findFirst()
        .ifPresent(
            last ->
                form.prefill("measure", last.measure().word())
                    .prefill("side", last.side().word())
                    .prefill("what", last.what()));
    return new OutcomePage(
        patient,
        all,
        CourseDrawing.of(all, threshold, zone),
        threshold,
        Arrays.stream(Measure.values())
            .map(one -> new Option(one.word(), one.words() + ", " + one.unit()))
            .toList(),
        List.of(new Option("left", "left"), new Option("right", "right")),
        signedIn.has(Roles.THERAPIST),
        zone,
        form);
  }
}
