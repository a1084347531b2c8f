package clinic.stimshelf.exchange;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Roles;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.time.Instant;
import java.util.List;

/** Appointments kept in another system, for scripts that send them each night. */
@Path("/api/outside-appointments")
@Produces(MediaType.APPLICATION_JSON)
@RolesAllowed({Roles.FRONT_DESK, Roles.MANAGER})
@Blocking
class OutsideApi {
  private static final int MOST = 200;

  @Inject OutsideSchedule schedule;
  @Inject SignedIn signedIn;

  /** A row that waits, with why. */
  record ParkedJson(String id, String key, Instant startsAt, String why, Instant seenAt) {}

  record ToldJson(
      int booked, int moved, int cancelled, int same, int parked, List<ParkedJson> waiting) {}

  /** A CSV or iCalendar file as the body. */
  @POST
  @Idempotent
  @Consumes({"text/csv", "text/calendar", MediaType.TEXT_PLAIN})
  public ToldJson take(
      @QueryParam("location") String location,
      @QueryParam("channels") int channels,
      @QueryParam("whole") boolean whole,
      byte[] body) {
    Long here = signedIn.locationOr(location);
    OutsideSchedule.Told told = schedule.take(here, "the file", body, channels, whole);
    return new ToldJson(
        told.booked(), told.moved(), told.cancelled(), told.same(), told.parked(), waiting(here));
  }

  /** What waits. */
  @GET
  public List<ParkedJson> parked(@QueryParam("location") String location) {
    return waiting(signedIn.locationOr(location));
  }

  private List<ParkedJson> waiting(Long here) {
    return schedule.parked(here, MOST).stream()
        .map(
            row ->
                new ParkedJson(
                    Ids.text(row.id()), row.key(), row.startsAt(), row.why(), row.seenAt()))
        .toList();
  }
}
