package clinic.stimshelf.recall;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;

/** Incidents: entered in one go, told one by one, closed when nothing is open. */
@Path("/incidents")
@Produces("text/html;charset=UTF-8")
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class IncidentPages {
  @Inject Incidents incidents;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** Every incident of the person's locations. */
  @CheckedTemplate(basePath = "recall", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record IncidentList(Page<IncidentLine> incidents, ZoneId zone) implements TemplateInstance {}

  /** The form. */
  @CheckedTemplate(basePath = "recall", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record IncidentNew(Form form, List<Option> kinds, List<Option> harms)
      implements TemplateInstance {}

  /** One incident. */
  @CheckedTemplate(basePath = "recall", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record IncidentPage(
      IncidentView incident,
      List<Option> whom,
      Form form,
      String done,
      boolean manager,
      ZoneId zone)
      implements TemplateInstance {}

  @GET
  public TemplateInstance list(@BeanParam Paging paging) {
    return new IncidentList(incidents.list(signedIn.locationIds(), paging), zone());
  }

  @GET
  @Path("new")
  public TemplateInstance blank(@QueryParam("unit") String unit) {
    return form(
        Form.empty()
            .prefill("unit", unit)
            .prefill("awareOn", locations.today(signedIn.locationOr(null))));
  }

  @POST
  @Path("new")
  public Response enter(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      Instant happened = instant(form);
      LocalDate aware = form.optionalDay("awareOn", "The day on which the clinic heard of it");
      form.throwIfWrong();
      Long id =
          incidents.enter(
              new NewIncident(
                  form.value("unit"),
                  form.value("chart"),
                  IncidentKind.find(form.value("kind")).orElse(null),
                  Harm.find(form.value("harm")).orElse(null),
                  form.value("words"),
                  happened,
                  aware));
      return RecallPages.to("/incidents/" + id + "?done=entered");
    } catch (Refusal refusal) {
      return RecallPages.refused(form(form.ok() ? form.refused(refusal) : form));
    }
  }

  private TemplateInstance form(Form form) {
    return new IncidentNew(
        form,
        Arrays.stream(IncidentKind.values())
            .map(one -> new Option(one.word(), one.words()))
            .toList(),
        Arrays.stream(Harm.values()).map(one -> new Option(one.word(), one.words())).toList());
  }

  @GET
  @Path("{id}")
  public TemplateInstance one(@PathParam("id") String id, @QueryParam("done") String done) {
    return page(id, Form.empty(), done);
  }

  @POST
  @Path("{id}/told")
  public Response tell(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      Instant happened = instant(form);
      form.throwIfWrong();
      incidents.tell(
          Ids.of(id, "incident"),
          new NewTold(
              Whom.find(form.value("whom")).orElse(null),
              !form.value("told").equals("no"),
              form.value("spokeWith"),
              form.value("reference"),
              form.value("note"),
              happened,
              form.value("lateReason")));
      return RecallPages.to("/incidents/" + id + "?done=told");
    } catch (Refusal refusal) {
      return RecallPages.refused(page(id, form.ok() ? form.refused(refusal) : form, null));
    }
  }

  @POST
  @Path("{id}/closure")
  @RolesAllowed(Roles.MANAGER)
  public Response close(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      incidents.close(Ids.of(id, "incident"), form.value("words"));
      return RecallPages.to("/incidents/" + id + "?done=closed");
    } catch (Refusal refusal) {
      return RecallPages.refused(page(id, form.refused(refusal), null));
    }
  }

  private Instant instant(Form form) {
    LocalDateTime at = form.optionalDayAndTime("happenedAt", "The time");
    return at == null ? null : at.atZone(zone()).toInstant();
  }

  private TemplateInstance page(String id, Form form, String done) {
    return new IncidentPage(
        incidents.byId(Ids.of(id, "incident")),
        Arrays.stream(Whom.values()).map(one -> new Option(one.word(), one.words())).toList(),
        form,
        done(done),
        signedIn.has(Roles.MANAGER),
        zone());
  }

  private static String done(String done) {
    return switch (done == null ? "" : done) {
      case "entered" ->
          "The incident is entered. Unit and pads are held, and how everything stood is kept below.";
      case "told" -> "Noted.";
      case "closed" -> "The incident is closed.";
      default -> "";
    };
  }

  private ZoneId zone() {
    return locations.zone(signedIn.locationOr(null));
  }
}
