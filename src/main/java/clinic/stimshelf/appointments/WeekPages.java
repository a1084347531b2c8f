package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.access.StaffView;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** A location's week: a row for each therapist, a column for each day. */
@Path("/schedule/week")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class WeekPages {
  @Inject WeekRows weeks;
  @Inject Staff staff;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** A day of the week shown. */
  record Day(LocalDate on, boolean open, boolean today, int booked) {}

  /** A therapist's days; the last row is for whoever is there. */
  record Row(String therapist, List<List<WeekRows.Visit>> days) {}

  @CheckedTemplate(basePath = "appointments", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ScheduleWeek(
      LocationView place,
      LocalDate monday,
      LocalDate before,
      LocalDate after,
      List<Day> days,
      List<Row> rows,
      int booked)
      implements TemplateInstance {}

  @GET
  @Transactional
  public TemplateInstance week(@QueryParam("day") String day) {
    Long here = signedIn.locationOr(null);
    LocalDate today = locations.today(here);
    LocalDate monday =
        SchedulePages.read(day, today).with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
    LocationView place = locations.byId(here);
    Map<Long, Map<LocalDate, List<WeekRows.Visit>>> byTherapist = new LinkedHashMap<>();
    Map<Long, String> names = new LinkedHashMap<>();
    for (StaffView one : staff.therapistsAt(here)) {
      names.put(one.id(), one.name());
    }
    int booked = 0;
    Map<LocalDate, Integer> ofDay = new TreeMap<>();
    ZoneId zone = place.zone();
    for (WeekRows.Visit visit : weeks.of(here, monday, zone)) {
      names.putIfAbsent(visit.therapistId(), visit.therapist());
      byTherapist
          .computeIfAbsent(visit.therapistId(), id -> new TreeMap<>())
          .computeIfAbsent(visit.day(), key -> new ArrayList<>())
          .add(visit);
      booked += visit.stands() ? 1 : 0;
      ofDay.merge(visit.day(), visit.stands() ? 1 : 0, Integer::sum);
    }
    List<Day> days = new ArrayList<>();
    for (LocalDate on = monday; on.isBefore(monday.plusDays(7)); on = on.plusDays(1)) {
      boolean open = !locations.hours(here, on).isEmpty();
      if (open || ofDay.containsKey(on)) {
        days.add(new Day(on, open, on.equals(today), ofDay.getOrDefault(on, 0)));
      }
    }
    List<Row> rows = new ArrayList<>();
    names.forEach(
        (id, name) -> {
          Map<LocalDate, List<WeekRows.Visit>> theirs = byTherapist.getOrDefault(id, Map.of());
          rows.add(
              new Row(
                  name,
                  days.stream().map(one -> theirs.getOrDefault(one.on(), List.of())).toList()));
        });
    return new ScheduleWeek(
        place, monday, monday.minusDays(7), monday.plusDays(7), days, rows, booked);
  }
}
