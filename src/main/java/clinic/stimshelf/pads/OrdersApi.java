package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.math.BigDecimal;
import java.net.URI;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;

/** Orders to suppliers and their deliveries. */
@Path("/api/orders")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class OrdersApi {
  @Inject Supply supply;
  @Inject SupplierMail mail;
  @Inject MovementLog log;
  @Inject SignedIn signedIn;
  @Inject Wire wire;

  /** An order as sent. */
  record OrderJson(
      String location,
      String supplier,
      LocalDate orderedOn,
      LocalDate expectedOn,
      String note,
      List<LineJson> lines,
      OffsetDateTime happenedAt,
      String lateReason) {}

  /** One pad type of it. */
  record LineJson(String code, Integer packs, BigDecimal price) {}

  /** A delivery as sent. */
  record DeliveryJson(
      String note, List<DeliveredJson> lines, OffsetDateTime happenedAt, String lateReason) {}

  /** Packs of one lot. */
  record DeliveredJson(String code, String lot, LocalDate expiresOn, Integer packs, String udi) {}

  /** What a delivery became. */
  record Delivered(OrderView order, List<MovementView> movements) {}

  /** Why the rest is cancelled. */
  record Cancellation(String reason, OffsetDateTime happenedAt, String lateReason) {}

  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Page<OrderView> list(
      @QueryParam("location") String location,
      @QueryParam("state") String state,
      @BeanParam Paging paging) {
    return supply
        .list(signedIn.locationsOr(location), state == null ? null : OrderState.of(state), paging)
        .map(this::shown);
  }

  @GET
  @Path("{id}")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public OrderView one(@PathParam("id") String id) {
    Long order = Wire.id(id);
    signedIn.requireLocation(supply.locationOf(order));
    return shown(supply.byId(order));
  }

  @POST
  @Idempotent
  @RolesAllowed(Roles.MANAGER)
  public Response order(OrderJson body) {
    OrderJson wanted = Wire.body(body);
    Long place = signedIn.locationOr(wanted.location());
    Long id =
        supply.order(
            new NewOrder(
                place,
                wanted.supplier(),
                wanted.orderedOn(),
                wanted.expectedOn(),
                wanted.note(),
                Wire.needed("lines", wanted.lines()).stream()
                    .map(
                        line ->
                            new NewOrder.Line(
                                line.code(), Wire.needed("packs", line.packs()), line.price()))
                    .toList()),
            wire.happened(wanted.happenedAt(), wanted.lateReason(), place));
    return Response.created(URI.create("/api/orders/" + id)).entity(supply.byId(id)).build();
  }

  @POST
  @Idempotent
  @Path("{id}/deliveries")
  @RolesAllowed({Roles.FRONT_DESK, Roles.MANAGER})
  public Response deliver(@PathParam("id") String id, DeliveryJson body) {
    DeliveryJson wanted = Wire.body(body);
    Long order = Wire.id(id);
    Long place = supply.locationOf(order);
    signedIn.requireLocation(place);
    List<Long> made =
        supply.receive(
            new NewDelivery(
                place,
                order,
                wanted.note(),
                Wire.needed("lines", wanted.lines()).stream()
                    .map(
                        line ->
                            new NewDelivery.Line(
                                line.code(),
                                line.lot(),
                                line.expiresOn(),
                                Wire.needed("packs", line.packs()),
                                line.udi()))
                    .toList()),
            wire.happened(wanted.happenedAt(), wanted.lateReason(), place));
    return Response.created(URI.create("/api/orders/" + order))
        .entity(new Delivered(shown(supply.byId(order)), log.byIds(made)))
        .build();
  }

  /** What the supplier said of an order that is late, and the new day if one was named. */
  record Inquiry(LocalDate expectedOn, String words) {}

  /** Where an order is sent. */
  record Letter(String to) {}

  @POST
  @Idempotent
  @Path("{id}/inquiries")
  @RolesAllowed({Roles.FRONT_DESK, Roles.MANAGER})
  public OrderView asked(@PathParam("id") String id, Inquiry body) {
    Inquiry told = Wire.body(body);
    Long order = mine(id);
    supply.asked(
        order,
        told.expectedOn(),
        told.words(),
        wire.happened(null, null, supply.locationOf(order)));
    return shown(supply.byId(order));
  }

  /** Sends it to the supplier by e-mail; refused where no mail server is set. */
  @POST
  @Idempotent
  @Path("{id}/mail")
  @RolesAllowed(Roles.MANAGER)
  public OrderView mail(@PathParam("id") String id, Letter body) {
    Letter letter = Wire.body(body);
    Long order = mine(id);
    mail.send(order, letter.to(), wire.happened(null, null, supply.locationOf(order)));
    return supply.byId(order);
  }

  private Long mine(String id) {
    Long order = Wire.id(id);
    signedIn.requireLocation(supply.locationOf(order));
    return order;
  }

  /** Cancels what has not come; what came stays. */
  @POST
  @Idempotent
  @Path("{id}/cancellation")
  @RolesAllowed(Roles.MANAGER)
  public OrderView cancel(@PathParam("id") String id, Cancellation body) {
    Cancellation wanted = Wire.body(body);
    Long order = Wire.id(id);
    Long place = supply.locationOf(order);
    signedIn.requireLocation(place);
    supply.cancel(
        order, wanted.reason(), wire.happened(wanted.happenedAt(), wanted.lateReason(), place));
    return supply.byId(order);
  }

  @DELETE
  @Path("{id}")
  @RolesAllowed(Roles.MANAGER)
  public OrderView cancel(@PathParam("id") String id, @QueryParam("reason") String reason) {
    return cancel(id, new Cancellation(reason == null ? "cancelled" : reason, null, null));
  }

  /** Prices are for managers alone. */
  private OrderView shown(OrderView order) {
    return signedIn.has(Roles.MANAGER) ? order : order.withoutPrices();
  }
}
