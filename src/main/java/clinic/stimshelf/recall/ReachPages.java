package clinic.stimshelf.recall;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;

/** Reaching one person about a recall, and noting what came of it. */
@Path("/recalls/{id}/people/{patient}")
@Produces("text/html;charset=UTF-8")
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class ReachPages {
  @Inject Recalls recalls;
  @Inject Reaching reaching;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** The page. */
  @CheckedTemplate(basePath = "recall", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ReachPage(
      RecallView recall,
      RecallPerson person,
      List<Option> outcomes,
      Form form,
      boolean mayExcuse,
      ZoneId zone)
      implements TemplateInstance {}

  @GET
  public TemplateInstance show(@PathParam("id") String id, @PathParam("patient") String patient) {
    return page(id, patient, Form.empty());
  }

  @POST
  public Response log(
      @PathParam("id") String id,
      @PathParam("patient") String patient,
      MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      LocalDateTime happened = form.optionalDayAndTime("happenedAt", "The time");
      form.throwIfWrong();
      reaching.reach(
          Ids.of(id, "recall"),
          new NewReach(
              Ids.of(patient, "patient"),
              ReachOutcome.find(form.value("outcome")).orElse(null),
              form.value("spokeWith"),
              form.value("proof"),
              form.value("note"),
              happened == null ? null : happened.atZone(zone()).toInstant(),
              form.value("lateReason")));
      return RecallPages.to("/recalls/" + id + "?done=logged");
    } catch (Refusal refusal) {
      return RecallPages.refused(page(id, patient, form.ok() ? form.refused(refusal) : form));
    }
  }

  @POST
  @Path("excuse")
  @RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
  public Response excuse(
      @PathParam("id") String id,
      @PathParam("patient") String patient,
      MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      reaching.excuse(Ids.of(id, "recall"), Ids.of(patient, "patient"), form.value("reason"));
      return RecallPages.to("/recalls/" + id + "?done=excused");
    } catch (Refusal refusal) {
      return RecallPages.refused(page(id, patient, form.refused(refusal)));
    }
  }

  private TemplateInstance page(String id, String patient, Form form) {
    Long recall = Ids.of(id, "recall");
    return new ReachPage(
        recalls.byId(recall),
        recalls.person(recall, Ids.of(patient, "patient")),
        Arrays.stream(ReachOutcome.values())
            .map(one -> new Option(one.word(), one.words()))
            .toList(),
        form,
        !signedIn.has(Roles.FRONT_DESK),
        zone());
  }

  private ZoneId zone() {
    return locations.zone(signedIn.locationOr(null));
  }
}
