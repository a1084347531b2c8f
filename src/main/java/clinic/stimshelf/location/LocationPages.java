package clinic.stimshelf.location;

import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
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
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Hours, closures, rooms and settings of a location. */
@Path("/settings/locations")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed(Roles.MANAGER)
class LocationPages {
  @Inject Locations locations;

  @CheckedTemplate(basePath = "location", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record LocationsPage(List<LocationView> locations) implements TemplateInstance {}

  @CheckedTemplate(basePath = "location", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record LocationPage(
      LocationView location,
      Form form,
      List<Weekday> week,
      List<ClosureView> closures,
      List<RoomView> rooms,
      List<Choice> settings,
      List<Reason> refused,
      String notice)
      implements TemplateInstance {}

  /** A weekday's hours as typed: "08:00-12:00, 13:00-18:00", empty if closed. */
  record Weekday(String key, String words, String hours) {}

  /** A setting as it is chosen. */
  record Choice(String key, String label, String value, String proposed, String allowed) {}

  @GET
  public TemplateInstance list() {
    return new LocationsPage(locations.all());
  }

  @GET
  @Path("{code}")
  public TemplateInstance show(@PathParam("code") String code, @QueryParam("done") String done) {
    return page(code, Form.empty(), List.of(), done == null ? null : "Kept.");
  }

  @POST
  @Path("{code}")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response change(@PathParam("code") String code, MultivaluedMap<String, String> typed) {
    return act(
        code,
        typed,
        (id, form) -> {
          Map<DayOfWeek, List<DayHours>> hours = new EnumMap<>(DayOfWeek.class);
          for (DayOfWeek day : DayOfWeek.values()) {
            hours.put(day, hours(form, day));
          }
          form.throwIfWrong();
          locations.change(
              id,
              new NewLocation(
                  code,
                  form.value("name"),
                  form.value("zone"),
                  form.optionalText("phone", "The phone number", 40),
                  form.optionalText("address", "The address", 300),
                  form.optionalText("after-hours-words", "The after-hours words", 500),
                  form.optionalText("emergency-words", "The emergency words", 500),
                  hours,
                  Map.of()));
        });
  }

  @POST
  @Path("{code}/closures")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response close(@PathParam("code") String code, MultivaluedMap<String, String> typed) {
    return act(
        code,
        typed,
        (id, form) -> {
          LocalDate day = form.day("day", "The day");
          LocalTime opens = form.optionalTime("opens", "The beginning");
          LocalTime closes = form.optionalTime("closes", "The end");
          form.throwIfWrong();
          locations.close(id, new ClosureView(day, opens, closes, form.value("reason")));
        });
  }

  @POST
  @Path("{code}/closures/{day}/reopen")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response reopen(
      @PathParam("code") String code,
      @PathParam("day") String day,
      MultivaluedMap<String, String> typed) {
    return act(code, typed, (id, form) -> locations.reopen(id, LocalDate.parse(day)));
  }

  @POST
  @Path("{code}/rooms")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response room(@PathParam("code") String code, MultivaluedMap<String, String> typed) {
    return act(
        code,
        typed,
        (id, form) -> {
          int capacity = form.whole("capacity", "The number of people", 1, 100);
          form.throwIfWrong();
          locations.addRoom(id, form.value("room"), capacity);
        });
  }

  @POST
  @Path("{code}/settings")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response choose(@PathParam("code") String code, MultivaluedMap<String, String> typed) {
    return act(
        code,
        typed,
        (id, form) -> {
          Map<String, String> values = new LinkedHashMap<>();
          for (Setting setting : Setting.values()) {
            if (form.names().contains(setting.key())) {
              String value = form.value(setting.key());
              values.put(setting.key(), value.equals(setting.proposed()) ? "" : value);
            }
          }
          locations.choose(id, values);
        });
  }

  private interface Act {
    void run(Long id, Form form);
  }

  private Response act(String code, MultivaluedMap<String, String> typed, Act act) {
    Form form = Form.of(typed);
    try {
      act.run(locations.byCode(code).id(), form);
      return Response.seeOther(URI.create("/settings/locations/" + code + "?done=1")).build();
    } catch (Refusal refusal) {
      form.refused(refusal);
      return Response.ok(page(code, form, refusal.reasons(), null)).build();
    }
  }

  private TemplateInstance page(String code, Form form, List<Reason> refused, String notice) {
    LocationView location = locations.byCode(code);
    form.prefill("name", location.name())
        .prefill("zone", location.zone().getId())
        .prefill("phone", location.phone())
        .prefill("address", location.address())
        .prefill("after-hours-words", location.afterHoursWords())
        .prefill("emergency-words", location.emergencyWords());
    Map<DayOfWeek, List<DayHours>> weekly = locations.weeklyHours(location.id());
    List<Weekday> week = new ArrayList<>();
    for (DayOfWeek day : DayOfWeek.values()) {
      String key = "hours-" + day.getValue();
      form.prefill(key, words(weekly.getOrDefault(day, List.of())));
      week.add(new Weekday(key, day.getDisplayName(TextStyle.FULL, Locale.US), form.value(key)));
    }
    LocationSettings settings = locations.settings(location.id());
    List<Choice> choices =
        Arrays.stream(Setting.values())
            .map(
                setting ->
                    new Choice(
                        setting.key(),
                        setting.label(),
                        form.names().contains(setting.key())
                            ? form.value(setting.key())
                            : settings.text(setting),
                        setting.proposed(),
                        setting.allowed()))
            .toList();
    return new LocationPage(
        location,
        form,
        week,
        locations.closuresFrom(location.id(), locations.today(location.id())),
        locations.rooms(location.id()),
        choices,
        refused,
        notice);
  }

  private static String words(List<DayHours> hours) {
    return String.join(", ", hours.stream().map(one -> one.opens() + "-" + one.closes()).toList());
  }

  private static List<DayHours> hours(Form form, DayOfWeek day) {
    String name = "hours-" + day.getValue();
    List<DayHours> hours =
        form.read(
            name,
            text -> {
              List<DayHours> read = new ArrayList<>();
              for (String stretch : text.split(",")) {
                List<String> ends = List.of(stretch.strip().split("-", 2));
                if (ends.size() < 2) {
                  throw new IllegalArgumentException("no end");
                }
                read.add(
                    new DayHours(
                        LocalTime.parse(ends.get(0).strip()),
                        LocalTime.parse(ends.get(1).strip())));
              }
              return read;
            },
            read -> !read.isEmpty(),
            "Hours are written 08:00-12:00, 13:00-18:00; empty means closed.");
    return hours == null ? List.of() : hours;
  }
}
