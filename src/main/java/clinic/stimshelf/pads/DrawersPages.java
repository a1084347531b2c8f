package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.List;

/** What to bring to which treatment drawer. */
@Path("/pads/drawers")
@Produces(Shown.HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class DrawersPages {
  @Inject TreatmentDrawers drawers;
  @Inject SignedIn signedIn;
  @Inject Locations locations;
  @Inject Shown shown;

  /** The list. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record DrawerList(
      String place,
      List<TreatmentDrawers.DrawerView> drawers,
      int toFill,
      Form form,
      List<Option> types)
      implements TemplateInstance {}

  @GET
  public TemplateInstance list() {
    return page(Form.empty());
  }

  @POST
  public Response level(MultivaluedMap<String, String> typed) {
    return changed(
        typed,
        form -> {
          int fillTo = form.whole("fillTo", "The level", 0, 1_000);
          String name = form.text("name", "The drawer", 80);
          String code = form.text("code", "The pads", 32);
          form.throwIfWrong();
          drawers.level(signedIn.locationOr(null), name, code, fillTo);
        });
  }

  @POST
  @Path("{id}/filled")
  public Response filled(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return changed(typed, form -> drawers.filled(Ids.of(id, "drawer"), signedIn.locationOr(null)));
  }

  private interface Change {
    void make(Form form);
  }

  private Response changed(MultivaluedMap<String, String> typed, Change change) {
    Form form = Form.of(typed);
    try {
      change.make(form);
      return Shown.to("/pads/drawers");
    } catch (Refusal refusal) {
      return Shown.refused(page(Shown.again(form, refusal)));
    }
  }

  private TemplateInstance page(Form form) {
    Long here = signedIn.locationOr(null);
    List<TreatmentDrawers.DrawerView> all = drawers.at(here);
    return new DrawerList(
        locations.byId(here).name(),
        all,
        (int) all.stream().filter(drawer -> drawer.missing() > 0).count(),
        form,
        shown.types());
  }
}
