package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.Arrays;
import java.util.List;

/** The ledger of packs; a mistake is undone by a line of its own. */
@Path("/pads/ledger")
@Produces(Shown.HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class LedgerPages {
  @Inject MovementLog log;
  @Inject StockKeeping keeping;
  @Inject SignedIn signedIn;
  @Inject Locations locations;
  @Inject Shown shown;

  /** Lines of the location. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record LedgerPage(
      Form form,
      LocationView place,
      List<Option> types,
      List<Option> reasons,
      Page<MovementView> lines,
      String more)
      implements TemplateInstance {}

  /** One line to undo. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record LedgerLine(Form form, LocationView place, MovementView line) implements TemplateInstance {}

  @GET
  public TemplateInstance list(
      @QueryParam("code") String code,
      @QueryParam("reason") String reason,
      @BeanParam Paging paging) {
    Long here = signedIn.locationOr(null);
    String wantedCode = PadStock.text(code);
    MovementReason wantedReason = PadStock.text(reason) == null ? null : MovementReason.of(reason);
    return new LedgerPage(
        Form.empty().prefill("code", wantedCode).prefill("reason", reason),
        locations.byId(here),
        shown.types(),
        Arrays.stream(MovementReason.values())
            .map(one -> new Option(one.word(), one.words()))
            .toList(),
        log.list(
            new MovementLog.Wanted(List.of(here), wantedCode, null, null, wantedReason, null, null),
            paging),
        (wantedCode == null ? "" : "&code=" + wantedCode)
            + (wantedReason == null ? "" : "&reason=" + wantedReason.word()));
  }

  @GET
  @Path("{id}")
  public TemplateInstance one(@PathParam("id") String id) {
    return line(Ids.of(id, "line"), Form.empty());
  }

  @POST
  @Path("{id}/undo")
  public Response undo(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    Long line = Ids.of(id, "line");
    Form form = Form.of(typed);
    Long place = log.locationOf(line);
    signedIn.requireLocation(place);
    try {
      keeping.reverse(line, form.value("reason"), shown.happened(Form.empty(), place));
      return Shown.to("/pads/ledger");
    } catch (Refusal refusal) {
      return Shown.refused(line(line, Shown.again(form, refusal)));
    }
  }

  private TemplateInstance line(Long id, Form form) {
    Long place = log.locationOf(id);
    signedIn.requireLocation(place);
    return new LedgerLine(form, locations.byId(place), log.byIds(List.of(id)).get(0));
  }
}
