package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.appointments.PlannedDay.Line;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.List;

/** The day's units for scripts. */
@Path("/api/unit-plan")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Retried
class UnitPlanApi {
  @Inject UnitPlans plans;
  @Inject DayUpsets upsets;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /**
   * A treatment with its unit.
   *
   * @param treatmentId number of the appointment
   * @param start when the unit is taken, setting up included
   * @param end when it is free again, wiped
   * @param how runs, brought, by-hand or planned
   * @param problem why a unit named by hand will not do, or {@code null}
   */
  record AssignmentJson(
      String treatmentId,
      String unitTag,
      OffsetDateTime start,
      OffsetDateTime end,
      String how,
      String problem) {}

  /** A unit that serves none that day, and why. */
  record OutJson(String unitTag, String reason) {}

  /**
   * @param peak most treatments at once that need a unit of the shelf
   * @param servedProven whether no other plan serves more
   * @param differing treatments whose unit written down is another one
   */
  record UnitPlanJson(
      LocalDate date,
      List<AssignmentJson> assignments,
      List<String> unserved,
      int peak,
      boolean servedProven,
      List<String> differing,
      List<OutJson> out) {}

  record FailureEntry(String location, String unitTag, String words) {}

  record CallOutEntry(
      String location, String therapistId, LocalDate date, LocalTime from, String words) {}

  /** What became of an appointment; {@code after} is {@code null} where nothing was found. */
  record ChangeJson(String appointmentId, String what, String before, String after) {}

  record UpsetJson(
      String id, LocalDate date, String cause, String words, List<ChangeJson> changes) {}

  /** Which unit serves which treatment of a day; today where no date is given. */
  @GET
  public UnitPlanJson plan(
      @QueryParam("date") String date, @QueryParam("location") String location) {
    Long here = signedIn.locationOr(location);
    return json(plans.of(here, day(date, here)));
  }

  /** Writes the plan down where it differs from what stands. */
  @POST
  @Idempotent
  public UnitPlanJson takeOver(
      @QueryParam("date") String date, @QueryParam("location") String location) {
    Long here = signedIn.locationOr(location);
    LocalDate day = day(date, here);
    plans.takeOver(here, day);
    return json(plans.of(here, day));
  }

  /** A unit failed: it goes out of service, and today is planned again. */
  @POST
  @Idempotent
  @Path("failures")
  public UpsetJson failed(FailureEntry sent) {
    if (sent == null || sent.unitTag() == null) {
      throw new Malformed("unitTag", "Say which unit failed: unitTag.");
    }
    Long here = signedIn.locationOr(sent.location());
    return json(upsets.byId(upsets.unitFailed(here, sent.unitTag(), sent.words())));
  }

  /** A therapist is called out: their appointments go to others who have a place left. */
  @POST
  @Idempotent
  @Path("call-outs")
  public UpsetJson calledOut(CallOutEntry sent) {
    if (sent == null || sent.therapistId() == null) {
      throw new Malformed("therapistId", "Say who was called out: therapistId.");
    }
    Long here = signedIn.locationOr(sent.location());
    LocalDate day = sent.date() == null ? locations.today(here) : sent.date();
    return json(
        upsets.byId(
            upsets.calledOut(
                here, Ids.of(sent.therapistId(), "therapist"), day, sent.from(), sent.words())));
  }

  private LocalDate day(String date, Long here) {
    try {
      return date == null || date.isBlank() ? locations.today(here) : LocalDate.parse(date.strip());
    } catch (DateTimeException notADay) {
      throw new Malformed("date", "“" + date + "” is not a day such as 2026-03-14.");
    }
  }

  private static UnitPlanJson json(PlannedDay plan) {
    return new UnitPlanJson(
        plan.day(),
        plan.lines().stream()
            .filter(line -> line.unitId() != null)
            .map(line -> json(line, plan.zone()))
            .toList(),
        plan.unserved().stream().map(line -> Ids.text(line.appointmentId())).toList(),
        plan.peak(),
        plan.provenServed(),
        plan.differing().stream().map(line -> Ids.text(line.appointmentId())).toList(),
        plan.out().stream().map(out -> new OutJson(out.unitTag(), out.reason())).toList());
  }

  private static AssignmentJson json(Line line, ZoneId zone) {
    return new AssignmentJson(
        Ids.text(line.appointmentId()),
        line.unitTag(),
        line.span().start().atZone(zone).toOffsetDateTime(),
        line.span().end().atZone(zone).toOffsetDateTime(),
        line.how().word(),
        line.problem());
  }

  private static UpsetJson json(DayUpsets.UpsetView upset) {
    return new UpsetJson(
        Ids.text(upset.id()),
        upset.day(),
        upset.cause(),
        upset.words(),
        upset.changes().stream()
            .map(
                change ->
                    new ChangeJson(
                        Ids.text(change.appointment().id()),
                        change.what(),
                        change.was(),
                        change.becomes()))
            .toList());
  }
}
