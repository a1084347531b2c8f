package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
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
import java.util.List;

/** A day on paper: for the wall behind the desk, and for a day without power. */
@Path("/schedule/list")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class DayListPages {
  @Inject Appointments appointments;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  @CheckedTemplate(basePath = "appointments", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record DayList(LocationView place, LocalDate day, List<AppointmentView> appointments)
      implements TemplateInstance {}

  @GET
  public TemplateInstance list(@QueryParam("day") String day) {
    Long here = signedIn.locationOr(null);
    LocalDate shown = SchedulePages.read(day, locations.today(here));
    return new DayList(locations.byId(here), shown, appointments.ofDay(here, shown));
  }
}
