package clinic.stimshelf.program;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.time.ZoneId;
import java.util.List;

/** What a program prints: the patient's home instructions and the sheet for the chart. */
@Path("/programs")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class PrintPages {
  @Inject HomeSheets homeSheets;
  @Inject Programs programs;
  @Inject ProgramDesk desk;
  @Inject Patients patients;
  @Inject Locations locations;

  @CheckedTemplate(basePath = "program", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record HomeInstructions(Long programId, HomeSheet sheet) implements TemplateInstance {}

  @CheckedTemplate(basePath = "program", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ProgramSheet(
      ProgramView program,
      PatientView patient,
      LocationView location,
      ZoneId zone,
      String stands,
      List<ProgramLines.Line> dose,
      OutlookView outlook)
      implements TemplateInstance {}

  @GET
  @Path("{id:\\d+}/home-instructions")
  public TemplateInstance home(@PathParam("id") String id, @QueryParam("lang") String lang) {
    return new HomeInstructions(
        ProgramsApi.id(id), homeSheets.of(ProgramsApi.id(id), lang == null ? null : lang.strip()));
  }

  @GET
  @Path("{id:\\d+}/sheet")
  public TemplateInstance sheet(@PathParam("id") String id) {
    ProgramView newest = programs.byId(ProgramsApi.id(id));
    ProgramView program =
        newest.signedVersion() == null
            ? newest
            : programs.byId(newest.id(), newest.signedVersion());
    LocationView location = locations.byCode(program.location());
    return new ProgramSheet(
        program,
        patients.byId(program.patientId()),
        location,
        location.zone(),
        ProgramLines.state(program, location.zone()),
        ProgramLines.dose(program),
        desk.outlook(program.id(), program.version()));
  }
}
