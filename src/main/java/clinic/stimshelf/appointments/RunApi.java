package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.RoomView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.util.List;

/** Runs of appointments for scripts. */
@Path("/api/appointment-runs")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Retried
class RunApi {
  @Inject Runs runs;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** A run as sent: the patient by id or chart number, the room by name. */
  record RunEntry(
      String location,
      String patientId,
      String chartNumber,
      int visits,
      int perWeek,
      int hoursApart,
      LocalDate from,
      LocalTime at,
      int minutes,
      String therapistId,
      String room,
      int channels,
      String note) {}

  record RunVisit(OffsetDateTime startsAt, String therapistId, String therapist) {}

  /**
   * @param complete whether as many were found as asked for
   * @param why what makes it the best run, a sentence each
   * @param against what the plan of care says against it; no refusal
   * @param booked numbers of the appointments; empty for a dry run
   */
  record RunAnswer(
      List<RunVisit> visits,
      boolean complete,
      LocalDate until,
      List<String> why,
      List<String> against,
      List<String> booked) {}

  /** Books the best run whole; with {@code dryRun=true} it is only shown. */
  @POST
  @Idempotent
  public RunAnswer run(@QueryParam("dryRun") boolean dryRun, RunEntry sent) {
    if (sent == null) {
      throw new Malformed("body", "The call needs a body in JSON.");
    }
    RunWish wish = wish(sent);
    RunProposal proposal = runs.propose(wish);
    if (!dryRun && !proposal.complete()) {
      throw new Refusal(
          "visits",
          "Only " + proposal.visits().size() + " of " + wish.visits() + " fit, so none is booked.",
          "Ask for fewer, or allow more a week.");
    }
    List<Long> booked = dryRun ? List.of() : runs.book(wish, proposal.visits());
    return new RunAnswer(
        proposal.visits().stream()
            .map(
                visit ->
                    new RunVisit(
                        visit.at().toOffsetDateTime(),
                        Ids.text(visit.therapistId()),
                        visit.therapist()))
            .toList(),
        proposal.complete(),
        proposal.until(),
        proposal.why(),
        proposal.against(),
        booked.stream().map(Ids::text).toList());
  }

  private RunWish wish(RunEntry sent) {
    Long here = signedIn.locationOr(sent.location());
    return new RunWish(
        here,
        patient(sent),
        sent.visits(),
        sent.perWeek(),
        sent.hoursApart(),
        sent.from(),
        sent.at(),
        sent.minutes(),
        Ids.optional(sent.therapistId(), "therapist"),
        sent.room() == null ? null : room(here, sent.room().strip()),
        sent.channels(),
        sent.note());
  }

  private Long patient(RunEntry sent) {
    if (sent.patientId() != null) {
      return patients.byId(Ids.of(sent.patientId(), "patient")).id();
    }
    if (sent.chartNumber() == null) {
      throw new Refusal("patientId", "Say who comes: patientId or chartNumber.");
    }
    return patients
        .byChart(sent.chartNumber())
        .orElseThrow(() -> new NotFound("No patient has this chart number."))
        .id();
  }

  private Long room(Long here, String name) {
    return locations.rooms(here).stream()
        .filter(room -> room.name().equalsIgnoreCase(name))
        .map(RoomView::id)
        .findFirst()
        .orElseThrow(() -> new Refusal("room", "The location has no room “" + name + "”."));
  }
}
