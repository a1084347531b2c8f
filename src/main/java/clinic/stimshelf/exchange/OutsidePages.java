package clinic.stimshelf.exchange;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
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
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.List;
import org.jboss.resteasy.reactive.RestForm;
import org.jboss.resteasy.reactive.multipart.FileUpload;

/** Bring in the other system's appointments, and see to the rows that wait. */
@Path("/schedule/other-system")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.MANAGER})
@Blocking
class OutsidePages {
  private static final int SHOWN = 200;

  @Inject OutsideSchedule schedule;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  @CheckedTemplate(basePath = "exchange", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record OtherSystem(
      LocationView place, List<OutsideSchedule.Parked> parked, long waiting, Form form, String done)
      implements TemplateInstance {}

  @GET
  public TemplateInstance show(@QueryParam("told") String told) {
    return page(Form.empty(), words(told));
  }

  @POST
  @Consumes(MediaType.MULTIPART_FORM_DATA)
  public Response take(
      @RestForm("file") FileUpload file, @RestForm String channels, @RestForm String whole) {
    Form form = Form.empty().prefill("channels", channels).prefill("whole", whole);
    try {
      List<SourceFile> sources = file == null ? List.of() : ImportApi.sources(List.of(file));
      if (sources.isEmpty()) {
        form.wrong("file", "Choose the file.");
      }
      Integer usual = form.optionalWhole("channels", "The channels", 0, 8);
      form.throwIfWrong();
      OutsideSchedule.Told told =
          schedule.take(
              signedIn.locationOr(null),
              sources.get(0).name(),
              sources.get(0).bytes(),
              usual == null ? 0 : usual,
              "yes".equals(whole));
      return Response.seeOther(
              URI.create(
                  "/schedule/other-system?told="
                      + told.booked()
                      + "-"
                      + told.moved()
                      + "-"
                      + told.cancelled()
                      + "-"
                      + told.same()
                      + "-"
                      + told.parked()))
          .build();
    } catch (Refusal refusal) {
      return Response.status(422)
          .type("text/html;charset=UTF-8")
          .entity(page(form.ok() ? form.refused(refusal) : form, "").render())
          .build();
    }
  }

  @POST
  @Path("{id}/again")
  public Response again(@PathParam("id") String id) {
    boolean taken = schedule.again(Ids.of(id, "row"), 0);
    return Response.seeOther(
            URI.create("/schedule/other-system?told=" + (taken ? "1-0-0-0-0" : "0-0-0-0-1")))
        .build();
  }

  @POST
  @Path("{id}/removal")
  public Response drop(@PathParam("id") String id) {
    schedule.drop(Ids.of(id, "row"));
    return Response.seeOther(URI.create("/schedule/other-system")).build();
  }

  private OtherSystem page(Form form, String done) {
    Long here = signedIn.locationOr(null);
    form.prefill("channels", 0);
    return new OtherSystem(
        locations.byId(here), schedule.parked(here, SHOWN), schedule.waiting(here), form, done);
  }

  private static String words(String told) {
    if (told == null || !told.matches("\\d{1,5}(-\\d{1,5}){4}")) {
      return "";
    }
    String[] counts = told.split("-", -1);
    return counts[0]
        + " booked, "
        + counts[1]
        + " moved, "
        + counts[2]
        + " cancelled, "
        + counts[3]
        + " as before, "
        + counts[4]
        + " parked.";
  }
}
