package clinic.stimshelf.whatif;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.calc.wear.Weibull;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadPast;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Roles;
import clinic.stimshelf.whatif.CurveTold.Step;
import clinic.stimshelf.whatif.PadLifeQuestion.PadLifeAnswer;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** How many sessions a pad set lasts, with numbers of one's own. */
@Path("/numbers/pad-life")
@Produces(NumbersPages.HTML)
@RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
@Blocking
class PadLifeNumbersPages {
  private static final String SUCH =
      "sessions, then worn or good, then how many sets, such as 18 worn 3";
  private static final Map<String, String> FIELDS =
      Map.of("observations", "lines", "planningReliability", "reliability");

  @Inject PadCatalog catalog;
  @Inject PadPast past;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** The page. */
  @CheckedTemplate(basePath = "whatif", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PadLifeNumbers(Form form, String pad, List<Option> pads, long own, Told told)
      implements TemplateInstance {}

  @GET
  public Response page(@QueryParam("pad") String asked) {
    return page(Form.empty().prefill("pad", asked), false);
  }

  @POST
  public Response answer(MultivaluedMap<String, String> typed) {
    return page(Form.of(typed), true);
  }

  static List<Option> pads(PadCatalog catalog) {
    return catalog.active().stream().map(t -> new Option(t.code(), t.name())).toList();
  }

  private Response page(Form form, boolean asked) {
    List<Option> pads = pads(catalog);
    String pad = NumbersPages.chosen(form, "pad", pads);
    List<PadPast.Lived> own = asked || pad.isEmpty() ? List.of() : past.lives(pad);
    if (!asked) {
      form.prefill(
          "reliability",
          Figures.typed(
              100 * locations.settings(signedIn.locationOr(null)).number(Setting.PAD_RELIABILITY)));
    }
    if (!own.isEmpty()) {
      form.prefill(
          "lines",
          own.stream()
              .map(l -> Figures.number(l.uses()) + (l.worn() ? " worn " : " good ") + l.sets())
              .collect(Collectors.joining("\n")));
    }
    Told told = asked || !own.isEmpty() ? told(form) : null;
    long sets = own.stream().mapToLong(PadPast.Lived::sets).sum();
    return NumbersPages.shown(form, new PadLifeNumbers(form, pad, pads, sets, told));
  }

  private static Told told(Form form) {
    Typed typed =
        new Typed(form)
            .lines(
                "lines",
                "observations",
                "Pad sets",
                SUCH,
                words -> LatenessNumbersPages.life(words, "uses", "worn", "worn", "good"));
    BigDecimal reliability = typed.share("reliability", "Sets that should last, of 100");
    if (reliability != null) {
      typed.question().set("planningReliability", JsonNodeFactory.instance.numberNode(reliability));
    }
    PadLifeAnswer answer = typed.answer(PadLifeQuestion::answer, FIELDS);
    return answer == null ? null : told(answer, reliability.doubleValue());
  }

  private static Told told(PadLifeAnswer answer, double reliability) {
    List<Step> steps =
        answer.curve().stream()
            .map(p -> new Step(p.uses(), p.atRisk(), p.worn(), p.stillGood(), p.standardError()))
            .toList();
    long worn = steps.stream().mapToLong(Step::ended).sum();
    String of = Figures.of100(reliability) + " of 100 sets";
    String headline =
        answer.planningUses() == null
            ? "Too little was seen to say how long a set lasts"
            : "Plan " + answer.planningUses() + " sessions a set: " + of + " should last that long";
    String basis =
        worn
            + (worn == 1 ? " set was" : " sets were")
            + " seen to wear out."
            + (worn < 20
                ? " Below 20 the programs keep to the rated uses of the pad type."
                : " From 20 on, the clinic’s own sets say more than a rated number.");
    String middle =
        answer.weibull() == null
            ? "At least three sets must have worn, not all after the same number of sessions."
            : "Half last "
                + Figures.number(
                    answer.weibull().scale() * Math.pow(Math.log(2), 1 / answer.weibull().shape()))
                + " sessions or more. "
                + (answer.weibull().shape() > 1
                    ? "Sets wear: the longer one was used, the likelier it goes next."
                    : "Weak sets go early; one that has lasted is no likelier to go next.");
    double longest = steps.isEmpty() ? 1 : steps.get(steps.size() - 1).at() * 1.2;
    Weibull fit =
        answer.weibull() == null
            ? null
            : new Weibull(answer.weibull().shape(), answer.weibull().scale());
    return new Told(
        headline,
        List.of(middle, basis),
        CurveTold.drawn(
            steps, longest, fit == null ? null : fit::surviving, headline + "; share still good"),
        List.of("Sessions", "In use until then", "Worn then", "Still good, of 100", "Error"),
        CurveTold.rows(steps));
  }
}
