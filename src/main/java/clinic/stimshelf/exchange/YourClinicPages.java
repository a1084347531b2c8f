package clinic.stimshelf.exchange;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.location.DayHours;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.NewLocation;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.PermitAll;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jboss.resteasy.reactive.RestQuery;

/** From the demo to a clinic of one's own: location and hours, holidays, staff, files. */
@Path("/your-clinic")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed(Roles.MANAGER)
@Blocking
class YourClinicPages {
  private static final List<Option> ZONES =
      List.of(
          new Option("America/New_York", "Eastern"),
          new Option("America/Chicago", "Central"),
          new Option("America/Denver", "Mountain"),
          new Option("America/Phoenix", "Mountain, without daylight saving (Arizona)"),
          new Option("America/Los_Angeles", "Pacific"),
          new Option("America/Anchorage", "Alaska"),
          new Option("Pacific/Honolulu", "Hawaii"),
          new Option("America/Puerto_Rico", "Atlantic (Puerto Rico)"));

  @Inject YourClinic clinic;
  @Inject Locations locations;
  @Inject Staff staff;
  @Inject SignedIn signedIn;

  /** A weekday of the form. */
  record Weekday(String field, String label) {}

  @CheckedTemplate(basePath = "exchange", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record OwnClinic(boolean demo, boolean chosen, boolean manager, String folder)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "exchange", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record FirstSteps(List<LocationView> places, long closures, long people)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "exchange", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record LocationEntry(Form form, List<Option> zones, List<Weekday> weekdays)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "exchange", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record HolidayChoice(LocationView place, List<Holidays.Proposed> proposed)
      implements TemplateInstance {}

  @GET
  @PermitAll
  public TemplateInstance start() {
    boolean manager = signedIn.has(Roles.MANAGER);
    if (clinic.isDemo() || !manager) {
      return new OwnClinic(clinic.isDemo(), clinic.chosen(), manager, clinic.folder().toString());
    }
    List<LocationView> mine = mine();
    long closures =
        mine.stream()
            .mapToLong(
                place -> locations.closuresFrom(place.id(), locations.today(place.id())).size())
            .sum();
    return new FirstSteps(mine, closures, staff.all().size());
  }

  @POST
  public Response choose() {
    try {
      clinic.choose();
    } catch (Refusal alreadyOwn) {
      // The page that follows shows the steps of the clinic's own.
    }
    return Response.seeOther(URI.create("/your-clinic")).build();
  }

  @GET
  @Path("/location")
  public TemplateInstance location() {
    Form form = Form.empty().prefill("zone", "America/New_York");
    for (int i = 1; i <= 5; i++) {
      form.prefill(HoursText.shortName(DayOfWeek.of(i)), "08:00-17:00");
    }
    return entry(form);
  }

  @POST
  @Path("/location")
  public Response addLocation(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      NewLocation wanted = read(form);
      form.throwIfWrong();
      Long id = locations.add(wanted);
      return Response.seeOther(
              URI.create("/your-clinic/holidays?location=" + locations.byId(id).code()))
          .build();
    } catch (Refusal refusal) {
      Form shown = form.ok() ? form.refused(refusal) : form;
      return Response.status(422).entity(entry(shown)).type("text/html;charset=UTF-8").build();
    }
  }

  @GET
  @Path("/holidays")
  public TemplateInstance holidays(@RestQuery String location) {
    LocationView place = locations.byId(signedIn.locationOr(location));
    return new HolidayChoice(place, clinic.proposed(place.id()));
  }

  @POST
  @Path("/holidays")
  public Response closeOnHolidays(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    Long place = signedIn.locationOr(form.value("location"));
    Set<LocalDate> ticked = new HashSet<>();
    form.values("days").stream()
        .filter(day -> day.matches("\\d{4}-\\d{2}-\\d{2}"))
        .forEach(day -> ticked.add(LocalDate.parse(day)));
    clinic.close(place, ticked);
    return Response.seeOther(URI.create("/your-clinic")).build();
  }

  private List<LocationView> mine() {
    return locations.all().stream()
        .filter(place -> signedIn.locationIds().contains(place.id()))
        .toList();
  }

  private static NewLocation read(Form form) {
    Map<DayOfWeek, List<DayHours>> hours = new EnumMap<>(DayOfWeek.class);
    for (DayOfWeek weekday : DayOfWeek.values()) {
      List<DayHours> stretches =
          form.read(
              HoursText.shortName(weekday),
              HoursText::stretches,
              list -> true,
              "Write hours such as 08:00-12:00 13:00-17:00, or leave the day blank.");
      if (stretches != null) {
        hours.put(weekday, stretches);
      }
    }
    Map<String, Integer> rooms =
        form.value("rooms")
            .lines()
            .map(String::strip)
            .filter(line -> !line.isEmpty())
            .map(YourClinicPages::room)
            .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue, Integer::sum));
    return new NewLocation(
        form.text("code", "The code", 32),
        form.text("name", "The name", 120),
        form.value("zone"),
        form.optionalText("phone", "The phone number", 40),
        form.optionalText("address", "The address", 300),
        form.optionalText("afterHours", "What patients read after hours", 500),
        form.optionalText("emergency", "What patients read for an emergency", 500),
        hours,
        rooms);
  }

  /** "Gym 4": a room and how many it treats at once, one where no number stands. */
  private static Map.Entry<String, Integer> room(String line) {
    int blank = line.lastIndexOf(' ');
    if (blank > 0 && line.substring(blank + 1).matches("\\d{1,3}")) {
      return Map.entry(
          line.substring(0, blank).strip(), Integer.parseInt(line.substring(blank + 1)));
    }
    return Map.entry(line, 1);
  }

  private static LocationEntry entry(Form form) {
    List<Weekday> weekdays = new ArrayList<>();
    for (DayOfWeek weekday : DayOfWeek.values()) {
      weekdays.add(
          new Weekday(
              HoursText.shortName(weekday),
              weekday.getDisplayName(java.time.format.TextStyle.FULL, java.util.Locale.US)));
    }
    return new LocationEntry(form, ZONES, weekdays);
  }
}
