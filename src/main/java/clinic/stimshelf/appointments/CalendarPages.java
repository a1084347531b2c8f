package clinic.stimshelf.appointments;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.CalendarText;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.PermitAll;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.EntityTag;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Request;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.net.URI;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;

/** A therapist's appointments in their own calendar program. */
@Path("/")
@Produces(MediaType.TEXT_HTML)
@Blocking
class CalendarPages {
  private static final String ENDING = ".ics";

  @Inject CalendarLinks links;
  @Inject CalendarEvents events;
  @Inject CalendarReads reads;
  @Inject SignedIn signedIn;
  @Inject Locations locations;
  @Inject Clock clock;

  /**
   * The page.
   *
   * @param made address of the link just made, shown this once; empty for none
   */
  @CheckedTemplate(basePath = "appointments", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record CalendarLinksPage(List<CalendarLinkView> links, ZoneId zone, Form form, String made)
      implements TemplateInstance {}

  @GET
  @Path("calendar-links")
  @RolesAllowed(Roles.THERAPIST)
  public TemplateInstance page() {
    return page(Form.empty(), "");
  }

  @POST
  @Path("calendar-links")
  @RolesAllowed(Roles.THERAPIST)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response make(MultivaluedMap<String, String> typed, @Context UriInfo uri) {
    Form form = Form.of(typed);
    try {
      String secret = links.make(form.value("words"));
      String address =
          uri.getBaseUriBuilder().path("calendar").path(secret + ENDING).build().toString();
      return html(200, page(Form.empty(), address));
    } catch (Refusal refusal) {
      return html(422, page(form.refused(refusal), ""));
    }
  }

  @POST
  @Path("calendar-links/{id}/revocation")
  @RolesAllowed(Roles.THERAPIST)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response revoke(@PathParam("id") String id) {
    links.revoke(Ids.of(id, "calendar link"));
    return Response.seeOther(URI.create("/calendar-links")).build();
  }

  /** The feed. Its address is the key to it, so nobody signs in. */
  @GET
  @Path("calendar/{secret}")
  @PermitAll
  @Produces(CalendarText.TYPE)
  public Response feed(@PathParam("secret") String secret, @Context Request request) {
    CalendarLinks.Reader reader =
        links.read(
            secret.endsWith(ENDING)
                ? secret.substring(0, secret.length() - ENDING.length())
                : secret);
    Optional<Duration> wait = reads.tooMany(reader.linkId());
    if (wait.isPresent()) {
      return Response.status(429)
          .type("text/plain;charset=UTF-8")
          .header("Retry-After", Math.max(1, wait.get().toSeconds()))
          .entity("This calendar was read too often. It changes by the hour at most.")
          .build();
    }
    String text =
        CalendarText.of(
            "Appointments " + reader.whose().initials(),
            events.ofTherapist(reader.whose().id(), clock.instant()));
    EntityTag tag = new EntityTag(CalendarText.tag(text));
    Response.ResponseBuilder unchanged = request.evaluatePreconditions(tag);
    return (unchanged != null ? unchanged : Response.ok(text, CalendarText.TYPE)).tag(tag).build();
  }

  private TemplateInstance page(Form form, String made) {
    return new CalendarLinksPage(
        links.mine(), locations.zone(signedIn.locationOr(null)), form, made);
  }

  private static Response html(int status, TemplateInstance page) {
    return Response.status(status)
        .type(MediaType.TEXT_HTML_TYPE.withCharset("UTF-8"))
        .entity(page.render())
        .build();
  }
}
