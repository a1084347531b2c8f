package clinic.stimshelf.review;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;

/** What would our ordering rule have done over the past year? */
@Path("/review/replay")
@Produces(ReviewPages.HTML)
@RolesAllowed(Roles.MANAGER)
@Blocking
class ReplayPages {
  private static final int MOST = 100_000;

  @Inject Replays replays;
  @Inject PadCatalog catalog;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** Every pad type of the location. */
  @CheckedTemplate(basePath = "review", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ReplayList(
      String place, String headline, String serviceLevel, List<ReplayView> views, String currency)
      implements TemplateInstance {}

  /** One pad type, with the fixed level that the manager chooses. */
  @CheckedTemplate(basePath = "review", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ReplayOne(
      String place,
      String code,
      String name,
      Form form,
      ReplayView view,
      ReplayChart chart,
      String currency)
      implements TemplateInstance {}

  @GET
  public TemplateInstance list() {
    Long here = signedIn.locationOr(null);
    List<ReplayView> views = replays.all(here);
    long shorter = views.stream().mapToLong(view -> view.rule().daysShort()).sum();
    return new ReplayList(
        locations.byId(here).name(),
        views.isEmpty()
            ? "Not enough past to replay yet"
            : shorter == 0
                ? "Our rule would have run out of nothing"
                : "Our rule would have been short on "
                    + shorter
                    + (shorter == 1 ? " day" : " days"),
        locations.settings(here).text(Setting.SERVICE_LEVEL),
        views,
        currency(here));
  }

  @GET
  @Path("{code}")
  public Response one(@PathParam("code") String code, @Context UriInfo uri) {
    Long here = signedIn.locationOr(null);
    Form form = Form.of(new MultivaluedHashMap<>(uri.getQueryParameters()));
    Integer level = form.optionalWhole("level", "The level", 0, MOST);
    Integer packs = form.optionalWhole("packs", "Packs in an order", 1, MOST);
    ReplayView view =
        replays
            .one(
                here,
                code,
                level == null ? null : level.longValue(),
                packs == null ? null : packs.longValue())
            .orElse(null);
    if (view != null) {
      form.prefill("level", view.level()).prefill("packs", view.quantity());
    }
    ReplayOne page =
        new ReplayOne(
            locations.byId(here).name(),
            code,
            catalog.byCode(code).name(),
            form,
            view,
            view == null ? null : ReplayChart.of(view),
            currency(here));
    return Response.status(form.ok() ? 200 : 422)
        .type(ReviewPages.HTML)
        .entity(page.render())
        .build();
  }

  private String currency(Long here) {
    return locations.settings(here).text(Setting.CURRENCY);
  }
}
