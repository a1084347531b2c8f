package clinic.stimshelf.loans;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.time.LocalDate;

/** The lending agreement as it is printed, in the patient's language. */
@Path("/loans/agreement")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class AgreementPages {
  @Inject Programs programs;
  @Inject Patients patients;
  @Inject CheckOut checkOut;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  @CheckedTemplate(basePath = "loans", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record Agreement(
      SignedProgram program,
      PatientView patient,
      UnitView unit,
      LocationView place,
      String version,
      boolean minor,
      boolean spanish,
      LocalDate today)
      implements TemplateInstance {}

  @GET
  public TemplateInstance show(@QueryParam("program") String id) {
    SignedProgram program =
        programs
            .signed(Ids.field("program", id))
            .orElseThrow(() -> new NotFound("There is no signed program with this number."));
    signedIn.requireLocation(program.locationId());
    PatientView patient = patients.byId(program.patientId());
    LocalDate today = locations.today(program.locationId());
    return new Agreement(
        program,
        patient,
        checkOut.kitFor(program),
        locations.byId(program.locationId()),
        AgreementText.VERSION,
        patient.minorOn(today),
        "es".equals(patient.language()),
        today);
  }
}
