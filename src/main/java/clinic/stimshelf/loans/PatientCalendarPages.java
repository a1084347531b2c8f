package clinic.stimshelf.loans;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.CalendarText;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Roles;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Response;

/** A patient's calendar file, for staff to hand over. */
@Path("/patients/{patient}/calendar.ics")
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class PatientCalendarPages {
  @Inject PatientCalendar calendar;
  @Inject Patients patients;
  @Inject SignedIn signedIn;

  @GET
  @Produces(CalendarText.TYPE)
  public Response file(@PathParam("patient") String id) {
    Long patient = Ids.of(id, "patient");
    signedIn.requireLocation(patients.byId(patient).locationId());
    return Response.ok(calendar.of(patient), CalendarText.TYPE)
        .header("Content-Disposition", "attachment; filename=\"appointments.ics\"")
        .build();
  }
}
