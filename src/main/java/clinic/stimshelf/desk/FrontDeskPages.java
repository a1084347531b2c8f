package clinic.stimshelf.desk;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.program.EndDecisions;
import clinic.stimshelf.recall.IncidentLine;
import clinic.stimshelf.recall.Incidents;
import clinic.stimshelf.recall.RecallLine;
import clinic.stimshelf.recall.Recalls;
import clinic.stimshelf.remind.ReminderBook;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.ShelfPicture;
import clinic.stimshelf.shelf.ShelfPictures;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.Way;
import io.quarkus.arc.All;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.inject.Produces;
import jakarta.inject.Inject;
import jakarta.inject.Singleton;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Each person's start page, and the desk's own. */
@Path("/")
@jakarta.ws.rs.Produces(MediaType.TEXT_HTML)
@Blocking
class FrontDeskPages {
  static final String HOME = "/front-desk";
  private static final Map<String, String> DONE =
      Map.of(
          "contact",
          "The call is logged. It stands as last contact beside the loan.",
          "taken-in",
          "The unit is checked in for the location that lent it, and stands here to be wiped.");

  @Inject Today today;
  @Inject Shelf shelf;
  @Inject ShelfPictures pictures;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Recalls recalls;
  @Inject Incidents incidents;
  @Inject ReminderBook reminders;
  @Inject QuietTasks quiet;
  @Inject SettingsToDo settings;
  @Inject EndDecisions ends;
  @Inject @All List<DeskAlert> alerts;

  @CheckedTemplate(basePath = "desk", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record FrontDesk(
      Headline headline,
      String done,
      TodayView today,
      ShelfPicture picture,
      LocalDate day,
      ZoneId zone,
      boolean mayInspect,
      List<RecallLine> recalls,
      List<IncidentLine> incidents,
      List<DeskAlert.Alert> alerts,
      long toReach,
      List<QuietTasks.Task> quiet,
      List<EndDecisions.Undecided> undecided,
      List<SettingsToDo.Line> settings)
      implements TemplateInstance {}

  /** Where the person begins: whoever treats sees patients, whoever manages sees orders. */
  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response start() {
    String page =
        signedIn.has(Roles.THERAPIST) ? "/needs-me" : signedIn.has(Roles.MANAGER) ? "/pads" : HOME;
    return Response.seeOther(URI.create(page)).build();
  }

  @GET
  @Path("front-desk")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public TemplateInstance desk(@QueryParam("done") String done) {
    Long here = signedIn.locationOr(null);
    List<UnitView> units = shelf.at(here);
    TodayView now = today.at(here, units);
    return new FrontDesk(
        Headline.of(now),
        DONE.getOrDefault(done == null ? "" : done, ""),
        now,
        pictures.of(here, units),
        locations.today(here),
        locations.zone(here),
        !signedIn.has(Roles.FRONT_DESK),
        recalls.open(),
        incidents.openAt(here),
        alerts.stream().flatMap(source -> source.alerts(here).stream()).toList(),
        reminders.countForPeople(here),
        signedIn.has(Roles.MANAGER) ? quiet.at(here) : List.of(),
        signedIn.has(Roles.MANAGER) ? ends.forManager(here) : List.of(),
        settings.at(here));
  }

  @Produces
  @Singleton
  Way way() {
    return new Way() {
      @Override
      public int order() {
        return 10;
      }

      @Override
      public String label() {
        return "Front desk";
      }

      @Override
      public String href() {
        return HOME;
      }

      @Override
      public Set<String> roles() {
        return Set.of(Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER);
      }
    };
  }
}
