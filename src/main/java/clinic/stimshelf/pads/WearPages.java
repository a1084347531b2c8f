package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import java.util.List;
import java.util.Locale;

/** How long do our pads last, and which lot is bad? */
@Path("/pads/wear")
@Produces(Shown.HTML)
@RolesAllowed({Roles.THERAPIST, Roles.MANAGER, Roles.FRONT_DESK})
@Blocking
class WearPages {
  private static final int SHOWN_LOTS = 8;

  @Inject PadWear wear;
  @Inject SignedIn signedIn;
  @Inject Locations locations;

  /** Every pad type. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record WearPage(LocationView place, String headline, List<Row> rows, long alpha)
      implements TemplateInstance {}

  /** One type with its picture. */
  record Row(WearView wear, LifeChart chart, List<Step> steps, List<Lot> lots, int moreLots) {

    /** Whether anything was seen. */
    public boolean seen() {
      return wear.observed() > 0;
    }
  }

  /** A step in words. */
  record Step(String uses, long atRisk, long ended, String lasting, String fitted) {}

  /** A lot in words. */
  record Lot(WearView.Lot lot, String perThousand, String chance, String adjusted) {}

  @GET
  public TemplateInstance page() {
    Long here = signedIn.locationOr(null);
    List<Row> rows = wear.all(here).stream().map(WearPages::row).toList();
    long suspects = rows.stream().mapToLong(row -> row.wear().proposed().size()).sum();
    return new WearPage(
        locations.byId(here),
        suspects == 0
            ? "No lot is worse than the rest"
            : suspects == 1 ? "One lot looks bad" : suspects + " lots look bad",
        rows,
        Math.round(100 * PadWear.ALPHA));
  }

  private static Row row(WearView wear) {
    return new Row(
        wear,
        LifeChart.of(wear),
        wear.steps().stream()
            .map(
                step ->
                    new Step(
                        step.uses() == Math.rint(step.uses())
                            ? String.valueOf((long) step.uses())
                            : "within the first",
                        step.atRisk(),
                        step.ended(),
                        percent(step.lasting()),
                        step.fitted() == null ? "" : percent(step.fitted())))
            .toList(),
        wear.lots().stream()
            .limit(SHOWN_LOTS)
            .map(
                lot ->
                    new Lot(
                        lot,
                        String.format(Locale.US, "%.1f", lot.perThousand()),
                        chance(lot.chance()),
                        chance(lot.adjusted())))
            .toList(),
        Math.max(0, wear.lots().size() - SHOWN_LOTS));
  }

  private static String percent(double share) {
    return String.format(Locale.US, "%.0f %%", 100 * share);
  }

  private static String chance(double p) {
    return p < 0.0001 ? "below 0.0001" : String.format(Locale.US, "%.4f", p);
  }
}
