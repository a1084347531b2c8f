package clinic.stimshelf.whatif;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.LocationSettings;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadPast;
import clinic.stimshelf.pads.PadTypeView;
import clinic.stimshelf.web.Form;
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
import java.math.BigDecimal;
import java.util.List;
import java.util.stream.Collectors;

/** When to order pads and how many, with numbers of one's own. */
@Path("/numbers/reorder")
@Produces(NumbersPages.HTML)
@RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
@Blocking
class ReorderNumbersPages {
  static final List<Option> PROMISES =
      List.of(
          new Option("cycle", "spans without running out, of 100"),
          new Option("fill", "packs given at once, of 100"));

  private static final int MOST_SIZES = 100;

  @Inject PadCatalog catalog;
  @Inject PadPast past;
  @Inject Locations locations;
  @Inject SignedIn signedIn;

  /** The page. */
  @CheckedTemplate(basePath = "whatif", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ReorderNumbers(
      Form form, String pad, List<Option> pads, List<Option> promises, PadPast.Use own, Told told)
      implements TemplateInstance {}

  @GET
  public Response page(@Context UriInfo uri) {
    Long here = signedIn.locationOr(null);
    Form form = Form.of(new MultivaluedHashMap<>(uri.getQueryParameters()));
    List<Option> pads = PadLifeNumbersPages.pads(catalog);
    String pad = NumbersPages.chosen(form, "pad", pads);
    PadPast.Use own = pad.isEmpty() ? null : past.use(pad, here);
    boolean asked = form.names().contains("packsPerDay");
    boolean known = own != null && own.packs() > 0;
    if (!asked) {
      prefill(form, pad.isEmpty() ? null : catalog.byCode(pad), known ? own : null, here);
    }
    Told told = asked || known ? ReorderTold.of(form) : null;
    return NumbersPages.shown(form, new ReorderNumbers(form, pad, pads, PROMISES, own, told));
  }

  private void prefill(Form form, PadTypeView type, PadPast.Use own, Long here) {
    LocationSettings settings = locations.settings(here);
    form.prefill("reviewDays", settings.text(Setting.REVIEW_DAYS))
        .prefill("promise", "cycle")
        .prefill("level", Figures.typed(100 * settings.number(Setting.SERVICE_LEVEL)));
    if (type != null) {
      List<Integer> lead = own == null ? List.of() : own.leadDays();
      form.prefill("packsPerCase", type.packsPerCase())
          .prefill("minimumOrder", type.minimumOrder())
          .prefill(
              "leadDays",
              lead.isEmpty()
                  ? type.leadDays()
                  : lead.subList(Math.max(0, lead.size() - 100), lead.size()).stream()
                      .map(String::valueOf)
                      .collect(Collectors.joining(" ")));
      if (signedIn.has(Roles.MANAGER)) {
        form.prefill("orderCost", typed(type.orderCost()))
            .prefill("holdingCost", typed(type.holdingCost()));
      }
    }
    if (own != null) {
      form.prefill("packsPerDay", Figures.typed(own.packs() / (double) own.days()))
          .prefill(
              "takings",
              own.takings().entrySet().stream()
                  .limit(MOST_SIZES)
                  .map(e -> e.getKey() + "×" + e.getValue())
                  .collect(Collectors.joining(" ")));
    }
  }

  private static String typed(BigDecimal cost) {
    return cost == null ? null : cost.stripTrailingZeros().toPlainString();
  }
}
