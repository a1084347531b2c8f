package clinic.stimshelf.shelf;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.codes.Tag;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
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
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.ZoneId;
import java.util.List;

/** Wiping one unit after the other: scan its tag, Enter on the proposed product. */
@Path("/wipe")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
@Retried
class WipePages {
  @Inject Shelf shelf;
  @Inject UnitCare care;
  @Inject WipeProducts products;
  @Inject SoilingRules rules;
  @Inject Locations locations;
  @Inject EventTimes times;
  @Inject SignedIn signedIn;

  /**
   * The page.
   *
   * @param done the unit just wiped, or {@code null}
   */
  @CheckedTemplate(basePath = "shelf", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record WipeUnit(
      List<UnitView> waiting,
      List<Option> products,
      SoilingRules rules,
      ZoneId zone,
      UnitView done,
      Form form)
      implements TemplateInstance {}

  @GET
  public TemplateInstance page(
      @QueryParam("unit") String unit,
      @QueryParam("done") String done,
      @QueryParam("product") String with) {
    UnitView wiped = done == null || Tag.problemWith(done).isPresent() ? null : seen(done);
    return page(Form.empty().prefill("tag", unit).prefill("product", with), wiped);
  }

  @POST
  public Response wiped(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      String tag = form.text("tag", "The tag", 100);
      form.throwIfWrong();
      UnitView unit = shelf.byTag(tag);
      signedIn.requireLocation(unit.locationId());
      care.wiped(
          unit.tag(),
          form.value("product"),
          null,
          When.of(form, locations.zone(unit.locationId()), times));
      return Back.to(form, "/wipe?done=" + unit.tag() + "&product=" + form.value("product"));
    } catch (NotFound unknown) {
      form.wrong("tag", unknown.getMessage());
    } catch (Refusal refusal) {
      if (form.ok()) {
        form.refused(refusal);
      }
    }
    return Back.again(422, page(form, null));
  }

  private UnitView seen(String tag) {
    try {
      UnitView unit = shelf.byTag(tag);
      return signedIn.mayActAt(unit.locationId()) ? unit : null;
    } catch (NotFound unknown) {
      return null;
    }
  }

  private WipeUnit page(Form form, UnitView done) {
    Long locationId = signedIn.locationOr(null);
    return new WipeUnit(
        shelf.at(locationId).stream().filter(u -> u.state() == UnitState.TO_WIPE).toList(),
        products.all().stream()
            .map(p -> new Option(p.key(), p.name() + ", " + p.contactMinutes() + " min"))
            .toList(),
        rules,
        locations.zone(locationId),
        done,
        form);
  }
}
