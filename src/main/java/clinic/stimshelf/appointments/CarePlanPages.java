package clinic.stimshelf.appointments;

import clinic.stimshelf.people.Matter;
import clinic.stimshelf.people.PatientMatters;
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
import jakarta.inject.Singleton;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.List;

/** A patient's plans of care: visits used of those authorized, and until when. */
@Path("/care-plans/{patient}")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Retried
class CarePlanPages {
  @Inject CarePlans plans;
  @Inject Patients patients;

  @CheckedTemplate(basePath = "appointments", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record CarePlansOf(PatientView patient, List<CarePlans.Standing> plans, Form form)
      implements TemplateInstance {}

  @GET
  public TemplateInstance show(@PathParam("patient") String patient) {
    return page(Ids.of(patient, "patient"), Form.empty());
  }

  @POST
  public Response enter(
      @PathParam("patient") String patient, MultivaluedMap<String, String> typed) {
    Long who = Ids.of(patient, "patient");
    Form form = Form.of(typed);
    try {
      CarePlans.NewCarePlan entry =
          new CarePlans.NewCarePlan(
              who,
              form.day("firstDay", "The first day"),
              form.day("lastDay", "The last day"),
              form.optionalWhole("visits", "Visits", 1, 500),
              form.optionalText("authorizedBy", "Authorized by", 120));
      form.throwIfWrong();
      plans.enter(entry);
      return Response.seeOther(URI.create("/patients/" + who)).build();
    } catch (Refusal refusal) {
      return SchedulePages.answer(page(who, form.ok() ? form.refused(refusal) : form));
    }
  }

  @POST
  @Path("{id}/end")
  public Response end(@PathParam("patient") String patient, @PathParam("id") String id) {
    plans.end(Ids.of(patient, "patient"), Ids.of(id, "plan of care"));
    return Response.seeOther(URI.create("/care-plans/" + Ids.of(patient, "patient"))).build();
  }

  private CarePlansOf page(Long who, Form form) {
    return new CarePlansOf(patients.byId(who), plans.of(who), form);
  }

  /** On the patient's page. */
  @Singleton
  static class OnPatientsPage implements PatientMatters {
    @Inject CarePlans plans;

    @Override
    public int order() {
      return 35;
    }

    @Override
    public String heading() {
      return "Plan of care";
    }

    @Override
    public List<Matter> of(Long patientId) {
      return plans.of(patientId).stream()
          .limit(3)
          .map(
              plan ->
                  new Matter(
                      "Plan of care",
                      plan.words(),
                      "/care-plans/" + patientId,
                      plan.over() ? "used up" : plan.ended() ? "ended" : "running"))
          .toList();
    }

    @Override
    public Matter start(Long patientId) {
      return new Matter("Record plan of care", "", "/care-plans/" + patientId, "");
    }
  }
}
