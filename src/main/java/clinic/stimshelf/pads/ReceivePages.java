package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Paging;
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

/** Packs that came: scan, look, receive. */
@Path("/pads/receive")
@Produces(Shown.HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.MANAGER})
@Blocking
class ReceivePages {
  @Inject Supply supply;
  @Inject PackScans scans;
  @Inject MovementLog log;
  @Inject SignedIn signedIn;
  @Inject Shown shown;

  /** The form; {@code done} is what was just received, or {@code null}. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ReceivePage(
      Form form, List<Option> types, List<Option> orders, List<OrderView> open, MovementView done)
      implements TemplateInstance {}

  @GET
  public TemplateInstance blank(
      @QueryParam("order") String order, @QueryParam("done") String done) {
    return page(
        Form.empty().prefill("order", order).prefill("code", onlyPadsOf(order)),
        done == null ? null : line(done));
  }

  /** Fills the form from a label, so that a person looks before anything is entered. */
  @POST
  @Path("scan")
  public TemplateInstance scan(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    if (!form.has("scan")) {
      form.wrong("scan", "Scan the label of a pack or case.");
      return page(form, null);
    }
    ScannedPack pack = scans.read(form.value("scan"));
    Form filled =
        Form.empty()
            .prefill("order", form.has("order") ? form.value("order") : null)
            .prefill("code", pack.code())
            .prefill("lot", pack.lot())
            .prefill("expiresOn", pack.expiresOn())
            .prefill("packs", pack.count() == null ? 1 : pack.count())
            .prefill("udi", pack.udi());
    pack.problems().forEach(problem -> filled.wrong("scan", problem));
    return page(filled, null);
  }

  @POST
  public Response receive(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      Long here = signedIn.locationOr(null);
      Happened happened = shown.happened(form, here);
      Long order = form.has("order") ? Ids.of(form.value("order"), "order") : null;
      NewDelivery.Line line =
          new NewDelivery.Line(
              form.text("code", "The pad type", 32),
              form.text("lot", "The lot number", 60),
              form.day("expiresOn", "The expiry"),
              form.whole("packs", "Packs", 1, 100_000),
              form.optionalText("udi", "The scanned code", 400));
      form.throwIfWrong();
      List<Long> made =
          supply.receive(
              new NewDelivery(
                  here,
                  order,
                  form.optionalText("note", "The note", 300),
                  form.ticked("consigned"),
                  List.of(line)),
              happened);
      return Shown.to(
          "/pads/receive?done=" + made.get(0) + (order == null ? "" : "&order=" + order));
    } catch (Refusal refusal) {
      return Shown.refused(page(Shown.again(form, refusal), null));
    }
  }

  private MovementView line(String done) {
    Long id = Ids.of(done, "line");
    signedIn.requireLocation(log.locationOf(id));
    return log.byIds(List.of(id)).get(0);
  }

  /** The one pad type of which the order still waits, or {@code null} if there are several. */
  private String onlyPadsOf(String order) {
    List<String> codes =
        order == null
            ? List.of()
            : open().stream()
                .filter(one -> one.id().equals(order))
                .flatMap(one -> one.lines().stream())
                .filter(line -> line.onOrder() > 0)
                .map(OrderView.Line::code)
                .distinct()
                .toList();
    return codes.size() == 1 ? codes.get(0) : null;
  }

  private List<OrderView> open() {
    return supply
        .list(List.of(signedIn.locationOr(null)), OrderState.OPEN, Paging.of(0, 200))
        .items();
  }

  private TemplateInstance page(Form form, MovementView done) {
    List<OrderView> open = open();
    return new ReceivePage(
        form, shown.types(), open.stream().map(Shown::option).toList(), open, done);
  }
}
