package clinic.stimshelf.link;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.ZoneId;
import java.util.List;

/** A patient's report, and what the therapist told them. The desk may read it and calls one. */
@Path("/reports/{id}")
@Produces(MediaType.TEXT_HTML)
@Blocking
class ReportPages {
  @Inject Reports reports;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  @CheckedTemplate(basePath = "link", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ReportPage(
      ReportView report,
      PatientView patient,
      boolean minor,
      boolean therapist,
      Form form,
      List<Reason> refused,
      ZoneId zone)
      implements TemplateInstance {}

  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public TemplateInstance show(@PathParam("id") String id) {
    return page(Ids.of(id, "report"), Form.empty(), List.of());
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed(Roles.THERAPIST)
  @Retried
  public Response answer(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    Long report = Ids.of(id, "report");
    Form form = Form.of(typed);
    try {
      reports.answer(report, form.value("answer"));
      return Response.seeOther(URI.create("/needs-me")).build();
    } catch (Refusal refusal) {
      return Response.status(422)
          .type(MediaType.TEXT_HTML_TYPE.withCharset("UTF-8"))
          .entity(page(report, form.refused(refusal), refusal.reasons()).render())
          .build();
    }
  }

  private TemplateInstance page(Long id, Form form, List<Reason> refused) {
    ReportView report = reports.byId(id);
    PatientView patient = patients.byIds(List.of(report.patientId())).get(report.patientId());
    return new ReportPage(
        report,
        patient,
        patient.minorOn(locations.today(report.locationId())),
        signedIn.has(Roles.THERAPIST),
        form,
        refused,
        locations.zone(report.locationId()));
  }
}
