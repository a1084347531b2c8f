package clinic.stimshelf.link;

import clinic.stimshelf.access.Guesses;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.UrgentWords;
import clinic.stimshelf.program.Outcome;
import clinic.stimshelf.remind.PatientLinks;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Retried;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import io.vertx.core.http.HttpServerRequest;
import jakarta.annotation.security.PermitAll;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Optional;
import java.util.function.Function;

/**
 * The patient's own page, opened by its link. Looking changes nothing, so that scanners of mail may
 * look; a post acts. Whoever guesses at links is slowed down.
 */
@Path("/p/{token}")
@Produces(MediaType.TEXT_HTML)
@PermitAll
@Blocking
class LinkPages {
  @Inject PatientLinks links;
  @Inject PatientDesk desk;
  @Inject Locations locations;
  @Inject Guesses guesses;
  @Inject HttpServerRequest request;
  @Inject HttpHeaders headers;
  @Inject Clock clock;

  @CheckedTemplate(basePath = "link", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record Program(PatientPage page) implements TemplateInstance {}

  @CheckedTemplate(basePath = "link", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record SkinQuestion(String lang, PatientPage.Lines say, String base)
      implements TemplateInstance {}

  /** What to do now, after a report. */
  @CheckedTemplate(basePath = "link", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record WhatNow(
      String lang,
      PatientPage.Lines say,
      String base,
      String kind,
      LocationView place,
      UrgentWords urgent,
      boolean full)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "link", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record Ended(String lang, PatientPage.Lines say) implements TemplateInstance {}

  @GET
  public Response show(@PathParam("token") String token, @QueryParam("said") String said) {
    return opened(
        token,
        matter ->
            ok(
                new Program(
                    desk.page(
                        matter,
                        base(token),
                        said == null ? null : desk.lines(matter.lang()).line("said")))));
  }

  @GET
  @Path("skin")
  public Response skin(@PathParam("token") String token) {
    return opened(
        token,
        matter -> ok(new SkinQuestion(matter.lang(), desk.lines(matter.lang()), base(token))));
  }

  /** What to do now; only words, so that it may be looked at again. */
  @GET
  @Path("now/{kind}")
  public Response now(
      @PathParam("token") String token,
      @PathParam("kind") String kind,
      @QueryParam("full") String full) {
    return opened(
        token,
        matter ->
            ReportKind.find(kind)
                .map(
                    one ->
                        ok(
                            new WhatNow(
                                matter.lang(),
                                desk.lines(matter.lang()),
                                base(token),
                                one.word(),
                                matter.place(),
                                locations.urgentWords(matter.place().id(), matter.lang()),
                                full != null)))
                .orElseGet(() -> see(base(token))));
  }

  /** The days to come for the patient's own calendar. */
  @GET
  @Path("days.ics")
  @Produces("text/calendar")
  public Response days(@PathParam("token") String token) {
    return opened(
        token,
        matter ->
            Response.ok(
                    DaysFile.of(desk.entries(matter), token, clock.instant()),
                    "text/calendar;charset=UTF-8")
                .header("Content-Disposition", "attachment; filename=\"days.ics\"")
                .build());
  }

  @POST
  @Path("sessions")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @Retried
  public Response tick(@PathParam("token") String token, MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    return opened(
        token,
        matter -> {
          LocalDate day = form.optionalDay("day", "The day");
          Integer nth = form.optionalWhole("nth", "The session", 1, 24);
          if (day != null && nth != null) {
            if (form.has("back")) {
              desk.takeBack(matter, day, nth);
            } else {
              Outcome outcome =
                  form.read("outcome", Outcome::of, one -> true, "Done, partial or not.");
              if (outcome != null) {
                desk.tick(matter, day, nth, outcome);
              }
            }
          }
          return see(base(token) + "?said=yes");
        });
  }

  @POST
  @Path("report")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @Retried
  public Response report(@PathParam("token") String token, MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    return opened(
        token,
        matter ->
            ReportKind.find(form.value("kind"))
                .map(
                    kind ->
                        see(
                            base(token)
                                + "/now/"
                                + kind.word()
                                + (desk.report(matter, kind) ? "" : "?full=yes")))
                .orElseGet(() -> see(base(token))));
  }

  private Response opened(String token, Function<PatientDesk.Matter, Response> answer) {
    guesses.refuse("link", request);
    Optional<PatientLinks.Opened> opened = links.open(token);
    if (opened.isEmpty()) {
      guesses.failed("link", request);
      String lang =
          headers.getAcceptableLanguages().stream()
              .findFirst()
              .filter(one -> one.getLanguage().equals("es"))
              .map(one -> "es")
              .orElse("en");
      return Response.status(404)
          .type(MediaType.TEXT_HTML_TYPE.withCharset("UTF-8"))
          .entity(new Ended(lang, desk.lines(lang)).render())
          .build();
    }
    return answer.apply(desk.matter(opened.get()));
  }

  private static String base(String token) {
    return "/p/" + token;
  }

  private static Response ok(TemplateInstance page) {
    return Response.ok(page.render(), MediaType.TEXT_HTML_TYPE.withCharset("UTF-8")).build();
  }

  private static Response see(String path) {
    return Response.seeOther(URI.create(path)).build();
  }
}
