package clinic.stimshelf.remind;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.ReachBy;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.web.SettingsPart;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;

/**
 * How messages are worded at a location. Nothing goes live that nobody has seen as it will read.
 */
@Path("/settings/wording")
@Produces(MediaType.TEXT_HTML)
@Blocking
@RolesAllowed(Roles.MANAGER)
class WordingPages {
  @Inject Wordings wordings;
  @Inject Ladder ladder;
  @Inject Composer composer;
  @Inject Senders senders;
  @Inject PatientLinks links;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** A step with its words in both languages. */
  record Kind(String key, String about, Said english, Said spanish) {}

  /** What is said now. */
  record Said(String language, String words, boolean own) {}

  @CheckedTemplate(basePath = "remind", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record WordingList(
      String place,
      List<Kind> kinds,
      boolean mail,
      boolean text,
      boolean links,
      boolean mayTell,
      String time)
      implements TemplateInstance {}

  /**
   * The form.
   *
   * @param preview the message as it would read, or empty before it was asked for
   */
  @CheckedTemplate(basePath = "remind", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record WordingEntry(
      String place,
      String key,
      String about,
      String language,
      String proposed,
      Form form,
      List<String> preview)
      implements TemplateInstance {}

  /** Its place in Settings. */
  @ApplicationScoped
  static class WordingPart implements SettingsPart {
    @Override
    public int order() {
      return 45;
    }

    @Override
    public String label() {
      return "Messages to patients";
    }

    @Override
    public String words() {
      return "What is said in each message, in English and Spanish, with a look at it first.";
    }

    @Override
    public String href() {
      return "/settings/wording";
    }
  }

  @GET
  public TemplateInstance list() {
    Long here = signedIn.locationOr(null);
    return new WordingList(
        locations.byId(here).name(),
        steps(here).stream()
            .map(
                step ->
                    new Kind(
                        step.key(),
                        step.words(),
                        said(here, step.key(), "en"),
                        said(here, step.key(), "es")))
            .toList(),
        senders.mail(),
        senders.text(),
        links.base().isPresent(),
        wordings.mayTell(here),
        clinic.stimshelf.web.Days.clock(derived(here)));
  }

  private LocalTime derived(Long here) {
    return locations.settings(here).time(clinic.stimshelf.location.Setting.REMINDER_TIME);
  }

  private Said said(Long here, String key, String language) {
    return new Said(language, wordings.of(here, key, language), wordings.own(here, key, language));
  }

  @GET
  @Path("{kind}/{language}")
  public TemplateInstance entry(
      @PathParam("kind") String kind, @PathParam("language") String language) {
    Long here = signedIn.locationOr(null);
    known(here, kind, language);
    return page(
        here,
        kind,
        language,
        Form.empty().prefill("words", wordings.of(here, kind, language)),
        List.of());
  }

  @POST
  @Path("{kind}/{language}")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @Retried
  public Response choose(
      @PathParam("kind") String kind,
      @PathParam("language") String language,
      MultivaluedMap<String, String> typed) {
    Long here = signedIn.locationOr(null);
    known(here, kind, language);
    Form form = Form.of(typed);
    try {
      if (form.has("live")) {
        String own =
            form.value("words").equals(wordings.proposed(here, kind, language))
                ? null
                : form.value("words");
        wordings.choose(here, kind, language, own);
        return Response.seeOther(URI.create("/settings/wording")).build();
      }
      Refusals refusals = new Refusals();
      wordings.check(here, form.value("words"), refusals);
      refusals.throwIfAny();
      return answer(200, page(here, kind, language, form, preview(here, kind, language, form)));
    } catch (Refusal refusal) {
      return answer(422, page(here, kind, language, form.refused(refusal), List.of()));
    }
  }

  private List<String> preview(Long here, String kind, String language, Form form) {
    String words =
        form.has("words") ? form.value("words") : wordings.proposed(here, kind, language);
    return composer.preview(example(here, language), here, kind, words);
  }

  private PatientView example(Long here, String language) {
    return new PatientView(
        0L,
        null,
        "T-1",
        language.equals("es") ? "Alma Reyes" : "Ada Lindqvist",
        LocalDate.of(1980, 5, 17),
        null,
        null,
        language,
        false,
        ReachBy.EMAIL,
        null,
        "ada@example.net",
        null,
        true,
        null,
        here,
        0);
  }

  private WordingEntry page(
      Long here, String kind, String language, Form form, List<String> preview) {
    LocationView place = locations.byId(here);
    return new WordingEntry(
        place.name(),
        kind,
        step(here, kind).words(),
        language,
        wordings.proposed(here, kind, language),
        form,
        preview);
  }

  private List<LadderFile.Step> steps(Long here) {
    return ladder.steps(here).stream()
        .filter(step -> step.channel().equals(LadderFile.MESSAGE))
        .toList();
  }

  private void known(Long here, String kind, String language) {
    step(here, kind);
    if (!language.equals("en") && !language.equals("es")) {
      throw new NotFound("Messages are worded in en and es.");
    }
  }

  private LadderFile.Step step(Long here, String kind) {
    return steps(here).stream()
        .filter(step -> step.key().equals(kind))
        .findFirst()
        .orElseThrow(() -> new NotFound("There is no message “" + kind + "”."));
  }

  private static Response answer(int status, TemplateInstance page) {
    return Response.status(status)
        .type(MediaType.TEXT_HTML_TYPE.withCharset("UTF-8"))
        .entity(page.render())
        .build();
  }
}
