package clinic.stimshelf.review;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;

/** Review: where did it go, and what should we change? */
@Path("/review")
@Produces(ReviewPages.HTML)
@RolesAllowed(Roles.MANAGER)
@Blocking
class ReviewPages {
  static final String HTML = "text/html;charset=UTF-8";

  @Inject Consumption consumption;
  @Inject UnitsReview unitsReview;
  @Inject EndingsReview endingsReview;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** The page. */
  @CheckedTemplate(basePath = "review", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ReviewPage(
      Chosen chosen,
      ReviewWords words,
      ConsumptionView view,
      Waterfall drawn,
      UnitsView units,
      EndingsView ends,
      List<Option> spans,
      List<Option> againsts,
      List<Option> places,
      String currency)
      implements TemplateInstance {}

  /** The same on paper. */
  @CheckedTemplate(basePath = "review", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ReviewPaper(
      Chosen chosen, ReviewWords words, ConsumptionView view, Waterfall drawn, String currency)
      implements TemplateInstance {}

  @GET
  public Response page(@Context UriInfo uri) {
    Chosen chosen = chosen(uri);
    ConsumptionView view = view(chosen);
    ReviewPage page =
        new ReviewPage(
            chosen,
            ReviewWords.of(view, currency()),
            view,
            drawn(view),
            unitsReview.of(chosen.where(), chosen.period()),
            endingsReview.of(chosen.where(), chosen.period()),
            Chosen.SPANS,
            Chosen.againsts(),
            Chosen.places(signedIn, locations.byId(signedIn.locationOr(null)).name()),
            currency());
    return Response.status(chosen.form().ok() ? 200 : 422).type(HTML).entity(page.render()).build();
  }

  @GET
  @Path("print")
  public TemplateInstance paper(@Context UriInfo uri) {
    Chosen chosen = chosen(uri);
    ConsumptionView view = view(chosen);
    return new ReviewPaper(chosen, ReviewWords.of(view, currency()), view, drawn(view), currency());
  }

  @GET
  @Path("consumption.csv")
  @Produces("text/csv")
  public Response file(@Context UriInfo uri) {
    Chosen chosen = chosen(uri);
    return Response.ok(ConsumptionSheet.of(view(chosen)))
        .type("text/csv;charset=UTF-8")
        .header(
            "Content-Disposition",
            "attachment; filename=\"consumption-"
                + chosen.period().from()
                + "-"
                + chosen.period().to()
                + ".csv\"")
        .build();
  }

  private Chosen chosen(UriInfo uri) {
    return Chosen.of(new MultivaluedHashMap<>(uri.getQueryParameters()), signedIn, locations);
  }

  private ConsumptionView view(Chosen chosen) {
    return consumption.of(chosen.where(), chosen.period(), chosen.against());
  }

  private static Waterfall drawn(ConsumptionView view) {
    return Waterfall.of(view.total().cost(), view.before() == null ? "planned" : "before");
  }

  private String currency() {
    return locations.settings(signedIn.locationOr(null)).text(Setting.CURRENCY);
  }
}
