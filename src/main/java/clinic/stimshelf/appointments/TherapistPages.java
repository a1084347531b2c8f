package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.LocalDate;
import java.time.format.TextStyle;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** Who treats when, and how many at once. */
@Path("/schedule/therapists")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Retried
class TherapistPages {
  private static final List<Option> KINDS =
      Arrays.stream(OffKind.values())
          .filter(kind -> kind != OffKind.CALLED_OUT)
          .map(kind -> new Option(kind.word(), kind.word().replace('-', ' ')))
          .toList();

  @Inject TherapistTimes times;
  @Inject Staff staff;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** A time off in words. */
  record Off(Long id, String words) {}

  /**
   * A therapist with what is entered.
   *
   * @param atOnce {@code null} where the location's number counts
   */
  record Row(StaffView who, Integer atOnce, List<Off> off) {}

  @CheckedTemplate(basePath = "appointments", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record TherapistHours(
      LocationView place,
      int usual,
      List<Row> rows,
      List<Option> therapists,
      List<Option> kinds,
      Form form,
      String done)
      implements TemplateInstance {}

  @GET
  public TemplateInstance show(@QueryParam("done") String done) {
    return page(
        Form.empty(), done == null ? "" : "Entered. Appointments that lie in it are marked.");
  }

  @POST
  public Response enter(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      TherapistTimes.NewTimeOff entry =
          new TherapistTimes.NewTimeOff(
              form.read("therapist", Long::valueOf, id -> true, "Choose one of the list."),
              form.read("kind", OffKind::of, kind -> true, "Choose why."),
              form.day("firstDay", "The first day"),
              form.optionalDay("lastDay", "The last day"),
              form.ticked("weekly"),
              form.optionalTime("begins", "From"),
              form.optionalTime("ends", "To"),
              form.optionalText("words", "The note", 200));
      if (entry.staffId() == null && form.error("therapist") == null) {
        form.wrong("therapist", "Choose the therapist.");
      }
      form.throwIfWrong();
      times.enter(entry);
      return Response.seeOther(URI.create("/schedule/therapists?done=off")).build();
    } catch (Refusal refusal) {
      return SchedulePages.answer(page(form.ok() ? form.refused(refusal) : form, ""));
    }
  }

  @POST
  @Path("{id}/at-once")
  public Response atOnce(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      Integer atOnce = form.optionalWhole("atOnce", "Patients at once", 1, 12);
      form.throwIfWrong();
      times.atOnce(Ids.of(id, "therapist"), atOnce);
      return Response.seeOther(URI.create("/schedule/therapists")).build();
    } catch (Refusal refusal) {
      return SchedulePages.answer(page(form.ok() ? form.refused(refusal) : form, ""));
    }
  }

  @POST
  @Path("off/{id}/removal")
  public Response remove(@PathParam("id") String id) {
    times.drop(Ids.of(id, "time off"));
    return Response.seeOther(URI.create("/schedule/therapists")).build();
  }

  private TherapistHours page(Form form, String done) {
    Long here = signedIn.locationOr(null);
    LocalDate today = locations.today(here);
    int usual = locations.settings(here).whole(Setting.PATIENTS_AT_ONCE);
    List<StaffView> who = staff.therapistsAt(here);
    List<Long> ids = who.stream().map(StaffView::id).toList();
    Roster roster = times.roster(ids, usual, today, today, locations.zone(here));
    List<TimeOff> off = times.from(ids, today);
    form.prefill("firstDay", today);
    return new TherapistHours(
        locations.byId(here),
        usual,
        who.stream()
            .map(
                one ->
                    new Row(
                        one,
                        roster.atOnce().get(one.id()),
                        off.stream()
                            .filter(row -> row.staffId.equals(one.id()))
                            .map(row -> new Off(row.id, words(row)))
                            .toList()))
            .toList(),
        who.stream().map(one -> new Option(one.id().toString(), one.name())).toList(),
        KINDS,
        form,
        done);
  }

  private static String words(TimeOff row) {
    StringBuilder words = new StringBuilder(row.kind.word().replace('-', ' ')).append(", ");
    if (row.weekday != null) {
      words
          .append("every ")
          .append(java.time.DayOfWeek.of(row.weekday).getDisplayName(TextStyle.FULL, Locale.US))
          .append(row.lastDay == null ? "" : " until " + Days.full(row.lastDay));
    } else {
      words
          .append(Days.shortly(row.firstDay))
          .append(row.firstDay.equals(row.lastDay) ? "" : " to " + Days.shortly(row.lastDay));
    }
    if (row.begins != null) {
      words.append(", ").append(Days.clock(row.begins)).append(" to ").append(Days.clock(row.ends));
    }
    return words.append(row.words == null ? "" : ": " + row.words).toString();
  }
}
