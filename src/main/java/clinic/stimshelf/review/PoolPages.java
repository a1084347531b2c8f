package clinic.stimshelf.review;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Form;
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
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;

/** Do we own enough units? */
@Path("/review/pool")
@Produces(ReviewPages.HTML)
@RolesAllowed(Roles.MANAGER)
@Blocking
class PoolPages {
  @Inject Pool pool;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** A kind with its pictures. */
  record Drawn(PoolView.OfKind kind, PoolChart curve, PoolChart begun, PoolChart away) {}

  /** The page. */
  @CheckedTemplate(basePath = "review", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PoolPage(Form form, PoolView view, List<Drawn> kinds, String currency)
      implements TemplateInstance {}

  /** The same on paper, with every table open. */
  @CheckedTemplate(basePath = "review", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PoolPaper(PoolView view, List<Drawn> kinds, String currency) implements TemplateInstance {}

  @GET
  public Response page(@Context UriInfo uri) {
    Form form = Form.of(new MultivaluedHashMap<>(uri.getQueryParameters()));
    PoolView view = view(form);
    return Response.status(form.ok() ? 200 : 422)
        .type(ReviewPages.HTML)
        .entity(new PoolPage(form, view, drawn(view), currency()).render())
        .build();
  }

  @GET
  @Path("print")
  public TemplateInstance paper(@Context UriInfo uri) {
    PoolView view = view(Form.of(new MultivaluedHashMap<>(uri.getQueryParameters())));
    return new PoolPaper(view, drawn(view), currency());
  }

  @GET
  @Path("pool.csv")
  @Produces("text/csv")
  public Response file(@Context UriInfo uri) {
    PoolView view = view(Form.of(new MultivaluedHashMap<>(uri.getQueryParameters())));
    return Response.ok(PoolSheet.of(view))
        .type("text/csv;charset=UTF-8")
        .header("Content-Disposition", "attachment; filename=\"pool-" + view.today() + ".csv\"")
        .build();
  }

  private PoolView view(Form form) {
    BigDecimal target =
        form.optionalNumber("goal", "The goal", new BigDecimal("0.1"), new BigDecimal("100"));
    form.prefill("goal", Amounts.of100(Pool.TARGET));
    return pool.of(
        signedIn.locationOr(null), target == null ? Pool.TARGET : target.doubleValue() / 100);
  }

  private static List<Drawn> drawn(PoolView view) {
    List<Drawn> drawn = new ArrayList<>();
    for (PoolView.OfKind kind : view.kinds()) {
      if (kind.lending().known()) {
        drawn.add(
            new Drawn(
                kind,
                PoolChart.turnedAway(kind, view.target()),
                PoolChart.begun(kind),
                PoolChart.away(kind)));
      }
    }
    return drawn;
  }

  private String currency() {
    return locations.settings(signedIn.locationOr(null)).text(Setting.CURRENCY);
  }
}
