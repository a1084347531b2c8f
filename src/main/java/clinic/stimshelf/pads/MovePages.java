package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Happened;
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
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.List;

/** Packs that go to another location. */
@Path("/pads/move")
@Produces(Shown.HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.MANAGER})
@Blocking
class MovePages {
  @Inject StockKeeping keeping;
  @Inject PadLots lots;
  @Inject PackScans scans;
  @Inject SignedIn signedIn;
  @Inject Locations locations;
  @Inject Shown shown;

  /** The form. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record MovePage(Form form, String here, List<Option> places, List<Option> lots, boolean done)
      implements TemplateInstance {}

  @GET
  public TemplateInstance blank(
      @QueryParam("done") String done,
      @QueryParam("from") String from,
      @QueryParam("to") String to,
      @QueryParam("code") String code,
      @QueryParam("packs") String packs) {
    Long here = signedIn.locationOr(null);
    Form form = Form.empty().prefill("packs", packs == null ? "1" : packs);
    if (from != null && !from.isBlank()) {
      form.prefill("from", from)
          .prefill("to", to == null ? locations.byId(here).code() : to)
          .prefill("code", code);
    }
    return page(form, done != null);
  }

  @POST
  public Response move(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      Long here = signedIn.locationOr(form.has("from") ? form.value("from") : null);
      Happened happened = shown.happened(form, here);
      Long lot = Ids.optional(form.value("lotId"), "lot");
      if (lot == null && form.has("scan")) {
        lot = scans.read(form.value("scan")).lotId();
      }
      if (lot == null) {
        form.wrong("lotId", "Scan a pack or choose the lot.");
      }
      if (!form.has("to")) {
        form.wrong("to", "Choose where the packs go.");
      }
      int packs = form.whole("packs", "Packs", 1, 100_000);
      form.throwIfWrong();
      keeping.transfer(
          here,
          signedIn.locationOr(form.value("to")),
          List.of(new PackLine(lot, packs, null)),
          form.optionalText("note", "The note", 300),
          happened);
      return Shown.to("/pads/move?done=yes");
    } catch (Refusal refusal) {
      return Shown.refused(page(Shown.again(form, refusal), false));
    }
  }

  private TemplateInstance page(Form form, boolean done) {
    Long here = signedIn.locationOr(form.has("from") ? form.value("from") : null);
    return new MovePage(
        form,
        locations.byId(here).name(),
        signedIn.locationIds().stream()
            .filter(place -> !place.equals(here))
            .map(locations::byId)
            .map(place -> new Option(place.code(), place.name()))
            .toList(),
        lots.list(form.has("code") ? form.value("code") : null, List.of(here)).stream()
            .filter(lot -> lot.packs() > 0 && lot.state() == LotState.FREE)
            .map(Shown::option)
            .toList(),
        done);
  }
}
