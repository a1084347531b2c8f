package clinic.stimshelf.recall;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.codes.udi.UdiReader;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.LotFactsView;
import clinic.stimshelf.pads.PadLots;
import clinic.stimshelf.shelf.ShelfKeeping;
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
import java.net.URI;
import java.time.Clock;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.function.BiConsumer;

/** Recalls: which are open, one from its beginning to its end, and the list on paper. */
@Path("/recalls")
@Produces("text/html;charset=UTF-8")
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
@Blocking
class RecallPages {
  private static final int SHOWN = 100;

  @Inject Recalls recalls;
  @Inject PadLots lots;
  @Inject ShelfKeeping kinds;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Clock clock;

  /** Every recall, open ones first. */
  @CheckedTemplate(basePath = "recall", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record RecallList(Page<RecallLine> recalls, ZoneId zone) implements TemplateInstance {}

  /**
   * The form.
   *
   * @param lot the lot it was begun from, or {@code null}
   */
  @CheckedTemplate(basePath = "recall", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record RecallNew(Form form, String lot, List<Option> kinds) implements TemplateInstance {}

  /** One recall; {@code page} of the people, from 0. */
  @CheckedTemplate(basePath = "recall", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record RecallPage(
      RecallView recall,
      List<RecallPerson> shown,
      int page,
      boolean more,
      Form form,
      String done,
      boolean manager,
      ZoneId zone)
      implements TemplateInstance {}

  /** The list on paper. */
  @CheckedTemplate(basePath = "recall", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record RecallPaper(RecallView recall, ZoneId zone, String printed) implements TemplateInstance {}

  @GET
  public TemplateInstance list(@BeanParam Paging paging) {
    return new RecallList(recalls.list(paging), zone());
  }

  @GET
  @Path("new")
  public TemplateInstance blank(
      @QueryParam("lot") String lot,
      @QueryParam("unit") String unit,
      @QueryParam("kind") String kind) {
    return form(Form.empty().prefill("lot", lot).prefill("unit", unit).prefill("kind", kind));
  }

  @POST
  @Path("new")
  public Response start(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      Long id =
          recalls.start(
              new NewRecall(
                  lot(form),
                  form.value("unit"),
                  form.value("kind"),
                  form.value("serialFrom"),
                  form.value("serialTo"),
                  form.value("reason"),
                  form.value("reference")));
      return to("/recalls/" + id + "?done=begun");
    } catch (Refusal refusal) {
      return refused(form(form.ok() ? form.refused(refusal) : form));
    }
  }

  /** The lot that the page named, or the one whose number was typed or scanned. */
  private Long lot(Form form) {
    if (form.has("lot")) {
      return Ids.of(form.value("lot"), "lot");
    }
    String typed = form.value("lotNumber");
    if (typed.isEmpty()) {
      return null;
    }
    List<LotFactsView> found = lots.byNumber(typed);
    if (found.isEmpty()) {
      String read =
          UdiReader.of(clock.instant().atZone(ZoneOffset.UTC).getYear()).read(typed).lot();
      found = read == null ? found : lots.byNumber(read);
    }
    if (found.isEmpty()) {
      throw new Refusal(
          "lotNumber", "No lot with this number was ever received.", "Look at the pack again.");
    }
    if (found.size() > 1) {
      throw new Refusal(
          "lotNumber",
          "Lots of several pad types have this number.",
          "Open the right one under Pads and begin the recall there.");
    }
    return found.get(0).id();
  }

  private TemplateInstance form(Form form) {
    String lot = null;
    if (form.has("lot")) {
      var stock = lots.byId(Ids.of(form.value("lot"), "lot"), List.of(-1L));
      lot = "Pads " + stock.code() + ", lot " + stock.lot();
    }
    return new RecallNew(
        form,
        lot,
        kinds.kinds().stream().map(kind -> new Option(kind.code(), kind.name())).toList());
  }

  @GET
  @Path("{id}")
  public TemplateInstance one(
      @PathParam("id") String id,
      @QueryParam("page") String page,
      @QueryParam("done") String done) {
    return page(
        id,
        page != null && page.matches("\\d{1,4}") ? Integer.parseInt(page) : 0,
        Form.empty(),
        done);
  }

  @GET
  @Path("{id}/list")
  public TemplateInstance paper(@PathParam("id") String id) {
    ZoneId zone = zone();
    return new RecallPaper(
        recalls.byId(Ids.of(id, "recall")),
        zone,
        clinic.stimshelf.web.Days.at(clock.instant(), zone) + ", " + signedIn.name());
  }

  @POST
  @Path("{id}/hold")
  public Response hold(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return step(id, typed, "held", (recall, form) -> recalls.holdAgain(recall));
  }

  @POST
  @Path("{id}/drawers")
  public Response drawers(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return step(
        id,
        typed,
        "drawers",
        (recall, form) -> recalls.drawersChecked(recall, form.value("found")));
  }

  @POST
  @Path("{id}/closure")
  @RolesAllowed(Roles.MANAGER)
  public Response close(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return step(id, typed, "closed", (recall, form) -> recalls.close(recall, form.value("words")));
  }

  @POST
  @Path("{id}/reopening")
  @RolesAllowed(Roles.MANAGER)
  public Response reopen(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return step(id, typed, "open", (recall, form) -> recalls.reopen(recall, form.value("words")));
  }

  private Response step(
      String id, MultivaluedMap<String, String> typed, String done, BiConsumer<Long, Form> change) {
    Form form = Form.of(typed);
    try {
      change.accept(Ids.of(id, "recall"), form);
      return to("/recalls/" + id + "?done=" + done);
    } catch (Refusal refusal) {
      return refused(page(id, 0, form.refused(refusal), null));
    }
  }

  private TemplateInstance page(String id, int page, Form form, String done) {
    RecallView recall = recalls.byId(Ids.of(id, "recall"));
    int from = Math.min(page * SHOWN, recall.people().size());
    int to = Math.min(from + SHOWN, recall.people().size());
    return new RecallPage(
        recall,
        recall.people().subList(from, to),
        page,
        to < recall.people().size(),
        form,
        done(done),
        signedIn.has(Roles.MANAGER),
        zone());
  }

  private static String done(String done) {
    return switch (done == null ? "" : done) {
      case "begun" -> "The recall is open and everything it is about is held.";
      case "held" -> "Everything it is about is held.";
      case "drawers" -> "Noted: the drawers were looked through.";
      case "closed" -> "The recall is closed. What is held stays held until it is let go.";
      case "open" -> "The recall is open again.";
      case "logged" -> "The attempt is logged.";
      case "excused" -> "The reason is noted.";
      default -> "";
    };
  }

  private ZoneId zone() {
    return locations.zone(signedIn.locationOr(null));
  }

  static Response to(String path) {
    return Response.seeOther(URI.create(path)).build();
  }

  static Response refused(TemplateInstance page) {
    return Response.status(422).type("text/html;charset=UTF-8").entity(page.render()).build();
  }
}
