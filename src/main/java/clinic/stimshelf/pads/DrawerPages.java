package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Happened;
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
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/** Taking pads outside of programs: one scan, one reason. */
@Path("/pads/drawer-take")
@Produces(Shown.HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class DrawerPages {
  @Inject PadStock stock;
  @Inject PackScans scans;
  @Inject TreatmentDrawers drawers;
  @Inject PadLots lots;
  @Inject MovementLog log;
  @Inject SignedIn signedIn;
  @Inject Shown shown;

  /** The form; {@code done} is what was just taken, or {@code null}. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record DrawerTakePage(
      Form form, List<Option> types, List<Option> reasons, List<Option> drawers, MovementView done)
      implements TemplateInstance {}

  @GET
  public TemplateInstance blank(@QueryParam("code") String code, @QueryParam("done") String done) {
    Form form = Form.empty().prefill("packs", 1).prefill("code", code);
    return page(form, done == null ? null : line(done));
  }

  @POST
  public Response take(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      Long here = signedIn.locationOr(null);
      Happened happened = shown.happened(form, here);
      int packs = form.whole("packs", "Packs", 1, 1_000);
      DrawerReason reason =
          form.read(
              "drawerReason", DrawerReason::of, Objects::nonNull, "Choose what the pads are for.");
      String note = form.optionalText("note", "The note", 300);
      String later = form.optionalText("laterLotReason", "The reason", 300);
      Long lot = form.has("scan") ? lot(form) : null;
      Long drawer = form.has("drawer") ? Ids.of(form.value("drawer"), "drawer") : null;
      form.throwIfWrong();
      List<Long> made =
          stock.drawerTake(
              new DrawerTake(
                  lot, form.value("code"), here, packs, reason, note, null, later, drawer),
              happened);
      return Shown.to("/pads/drawer-take?done=" + made.get(0));
    } catch (Refusal refusal) {
      return Shown.refused(page(Shown.again(form, refusal), null));
    }
  }

  private Long lot(Form form) {
    ScannedPack pack = scans.read(form.value("scan"));
    if (pack.lotId() == null) {
      form.wrong(
          "scan",
          pack.problems().isEmpty()
              ? "No lot “" + pack.lot() + "” is known. Choose the pads instead."
              : String.join(" ", pack.problems()));
    }
    return pack.lotId();
  }

  private MovementView line(String done) {
    Long id = Ids.of(done, "line");
    signedIn.requireLocation(log.locationOf(id));
    return log.byIds(List.of(id)).get(0);
  }

  private TemplateInstance page(Form form, MovementView done) {
    return new DrawerTakePage(
        form,
        shown.types(),
        Arrays.stream(DrawerReason.values())
            .map(reason -> new Option(reason.word(), reason.words()))
            .toList(),
        drawers.at(signedIn.locationOr(null)).stream()
            .map(
                drawer ->
                    new Option(
                        String.valueOf(drawer.id()), drawer.name() + ": " + drawer.padName()))
            .toList(),
        done);
  }
}
