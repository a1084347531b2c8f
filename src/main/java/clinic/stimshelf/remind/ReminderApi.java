package clinic.stimshelf.remind;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;

/** Reminders for scripts. */
@Path("/api/reminders")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class ReminderApi {
  @Inject ReminderBook book;
  @Inject SignedIn signedIn;

  /** What was done about it, in words; may be left out. */
  public record DoneIn(String note) {}

  @GET
  public Page<ReminderView> list(
      @QueryParam("state") String state,
      @QueryParam("location") String location,
      @QueryParam("patientId") String patientId,
      @BeanParam Paging paging) {
    return book.list(
        signedIn.locationsOr(location),
        state == null || state.isBlank() ? null : state(state),
        patientId == null || patientId.isBlank() ? null : Ids.field("patientId", patientId),
        paging);
  }

  @POST
  @Path("{id}/done")
  @Idempotent
  @Retried
  public ReminderView done(@PathParam("id") String id, DoneIn body) {
    return book.done(Ids.of(id, "reminder"), body == null ? null : body.note());
  }

  /** A mail that was taken came back. */
  @POST
  @Path("{id}/bounced")
  @Idempotent
  @Retried
  public ReminderView bounced(@PathParam("id") String id, DoneIn body) {
    Long number = Ids.of(id, "reminder");
    book.bounced(number, body == null ? null : body.note());
    return book.byId(number);
  }

  private static ReminderView.State state(String word) {
    try {
      return ReminderView.State.of(word);
    } catch (IllegalArgumentException unknown) {
      throw new Malformed("state", unknown.getMessage());
    }
  }
}
