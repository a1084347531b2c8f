package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.audit.TrailEntry;
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
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/** Orders to suppliers. */
@Path("/pads/orders")
@Produces(Shown.HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.MANAGER})
@Blocking
class OrderPages {
  private static final BigDecimal DEAREST = new BigDecimal("99999999");

  /** Lines that stand ready, and lines left free below what is filled in. */
  private static final int ROWS = 8;

  private static final int FREE_ROWS = 2;
  private static final int MOST_ROWS = 100;

  @Inject Supply supply;
  @Inject SupplierMail mail;
  @Inject Reorders reorders;
  @Inject PadCatalog catalog;
  @Inject Trail trail;
  @Inject SignedIn signedIn;
  @Inject Locations locations;
  @Inject Shown shown;

  /** All orders of the location. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record OrderList(Page<OrderView> orders, List<OrderView> late, boolean mayOrder)
      implements TemplateInstance {}

  /** One order. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record OrderOne(
      OrderView order,
      Map<String, String> names,
      Form form,
      boolean mail,
      boolean open,
      boolean mayOrder,
      LocationView place,
      List<TrailEntry> trail)
      implements TemplateInstance {}

  /** A new order. */
  @CheckedTemplate(basePath = "pads", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record OrderEntry(Form form, List<Option> types, List<Line> rows) implements TemplateInstance {}

  /** Names of the fields of one line. */
  record Line(String number, String code, String packs, String price) {}

  @GET
  public TemplateInstance list(@BeanParam Paging paging) {
    return new OrderList(
        supply.list(List.of(signedIn.locationOr(null)), null, paging),
        supply.late(List.of(signedIn.locationOr(null))),
        signedIn.has(Roles.MANAGER));
  }

  @GET
  @Path("new")
  @RolesAllowed(Roles.MANAGER)
  public TemplateInstance blank(
      @QueryParam("code") String code,
      @QueryParam("packs") String packs,
      @QueryParam("supplier") String supplier) {
    Form form = Form.empty().prefill("code-1", code).prefill("packs-1", packs);
    if (supplier != null) {
      proposed(form.prefill("supplier", supplier), supplier);
    }
    if (code != null) {
      form.prefill("supplier", catalog.byCode(code).supplier());
    }
    return entry(form);
  }

  /** Everything that is due from one supplier. */
  private void proposed(Form form, String supplier) {
    int n = 0;
    for (Reorders.Both both : reorders.all(signedIn.locationOr(null))) {
      boolean theirs = supplier.equals(catalog.byCode(both.position().code()).supplier());
      if (theirs && both.answer().orderQuantity() > 0 && n < MOST_ROWS) {
        n++;
        form.prefill("code-" + n, both.position().code())
            .prefill("packs-" + n, both.answer().orderQuantity());
      }
    }
  }

  /** A file for the supplier, or for whoever buys. */
  @GET
  @Path("{id}/csv")
  @Produces("text/csv;charset=UTF-8")
  public Response csv(@PathParam("id") String id) {
    Long order = Ids.of(id, "order");
    signedIn.requireLocation(supply.locationOf(order));
    return Response.ok(OrderText.csv(supply.byId(order), names(), signedIn.has(Roles.MANAGER)))
        .header("Content-Disposition", "attachment; filename=\"order-" + order + ".csv\"")
        .build();
  }

  @POST
  @Path("{id}/mail")
  @RolesAllowed(Roles.MANAGER)
  public Response mail(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return changed(
        id, typed, (order, form, happened) -> mail.send(order, form.value("to"), happened));
  }

  @POST
  @Path("{id}/asked")
  public Response asked(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return changed(
        id,
        typed,
        (order, form, happened) -> {
          LocalDate day = form.optionalDay("expectedOn", "The day");
          String words = form.optionalText("words", "What was said", 300);
          form.throwIfWrong();
          supply.asked(order, day, words, happened);
        });
  }

  private interface Change {
    void make(Long order, Form form, Happened happened);
  }

  private Response changed(String id, MultivaluedMap<String, String> typed, Change change) {
    Long order = Ids.of(id, "order");
    Form form = Form.of(typed);
    Long place = supply.locationOf(order);
    signedIn.requireLocation(place);
    try {
      change.make(order, form, shown.happened(Form.empty(), place));
      return Shown.to("/pads/orders/" + order);
    } catch (Refusal refusal) {
      return Shown.refused(one(order, Shown.again(form, refusal)));
    }
  }

  private Map<String, String> names() {
    return catalog.names();
  }

  @POST
  @RolesAllowed(Roles.MANAGER)
  public Response order(MultivaluedMap<String, String> typed) {
    Form form = Form.of(typed);
    try {
      Long here = signedIn.locationOr(null);
      List<NewOrder.Line> lines = new ArrayList<>();
      for (Line row : rows(form)) {
        if (form.has(row.code())) {
          lines.add(
              new NewOrder.Line(
                  form.value(row.code()),
                  form.whole(row.packs(), "Packs", 1, 100_000),
                  form.optionalNumber(row.price(), "The price", BigDecimal.ZERO, DEAREST)));
        }
      }
      NewOrder order =
          new NewOrder(
              here,
              form.optionalText("supplier", "The supplier", 120),
              form.optionalDay("orderedOn", "The day"),
              form.optionalDay("expectedOn", "The day"),
              form.optionalText("note", "The note", 300),
              lines);
      form.throwIfWrong();
      return Shown.to("/pads/orders/" + supply.order(order, shown.happened(Form.empty(), here)));
    } catch (Refusal refusal) {
      return Shown.refused(entry(Shown.again(form, refusal)));
    }
  }

  @GET
  @Path("{id}")
  public TemplateInstance one(@PathParam("id") String id) {
    return one(Ids.of(id, "order"), Form.empty());
  }

  @POST
  @Path("{id}/cancel")
  @RolesAllowed(Roles.MANAGER)
  public Response cancel(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return changed(
        id, typed, (order, form, happened) -> supply.cancel(order, form.value("reason"), happened));
  }

  private TemplateInstance one(Long id, Form form) {
    Long place = supply.locationOf(id);
    signedIn.requireLocation(place);
    boolean manager = signedIn.has(Roles.MANAGER);
    OrderView order = supply.byId(id);
    return new OrderOne(
        manager ? order : order.withoutPrices(),
        names(),
        form.prefill("to", supply.addressOf(order.supplier())),
        mail.able(),
        order.state() == OrderState.OPEN,
        manager,
        locations.byId(place),
        manager ? trail.of(Subject.of("order", id)) : List.of());
  }

  private TemplateInstance entry(Form form) {
    return new OrderEntry(form, shown.types(), rows(form));
  }

  private static List<Line> rows(Form form) {
    int filled =
        IntStream.rangeClosed(1, MOST_ROWS)
            .filter(n -> form.has("code-" + n) || form.has("packs-" + n))
            .max()
            .orElse(0);
    return IntStream.rangeClosed(1, Math.max(ROWS, filled + FREE_ROWS))
        .mapToObj(n -> new Line(String.valueOf(n), "code-" + n, "packs-" + n, "price-" + n))
        .toList();
  }
}
