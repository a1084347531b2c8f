package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.List;

/** The ledger of packs: read it, add to it, undo what was entered wrongly. */
@Path("/api/stock-movements")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class StockMovementsApi {
  @Inject MovementLog log;
  @Inject PadStock stock;
  @Inject StockKeeping keeping;
  @Inject Supply supply;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Wire wire;

  /**
   * A line to add: {@code reason} is drawer-take, appointment, delivery, discarded or expired; or
   * {@code reverses} names the line to undo. {@code packs} may be signed or not: the reason says
   * which way they go.
   */
  record NewMovement(
      String location,
      String code,
      String lotId,
      String lot,
      LocalDate expiresOn,
      Integer packs,
      MovementReason reason,
      DrawerReason drawerReason,
      String note,
      String laterLotReason,
      String patientId,
      String reverses,
      OffsetDateTime happenedAt,
      String lateReason) {}

  /** What was added. */
  record Added(List<MovementView> items) {}

  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Page<MovementView> list(
      @QueryParam("location") String location,
      @QueryParam("code") String code,
      @QueryParam("lotId") String lotId,
      @QueryParam("loanId") String loanId,
      @QueryParam("reason") String reason,
      @QueryParam("from") LocalDate from,
      @QueryParam("to") LocalDate to,
      @BeanParam Paging paging) {
    List<Long> places = signedIn.locationsOr(location);
    ZoneId zone = locations.zone(places.get(0));
    return log.list(
        new MovementLog.Wanted(
            places,
            code,
            Wire.number("lotId", lotId),
            Wire.number("loanId", loanId),
            reason == null ? null : MovementReason.of(reason),
            from == null ? null : from.atStartOfDay(zone).toInstant(),
            to == null ? null : to.plusDays(1).atStartOfDay(zone).toInstant()),
        paging);
  }

  @POST
  @Idempotent
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response add(NewMovement body) {
    NewMovement wanted = Wire.body(body);
    List<MovementView> lines = log.byIds(made(wanted));
    return Response.created(URI.create("/api/stock-movements"))
        .entity(lines.size() == 1 ? lines.get(0) : new Added(lines))
        .build();
  }

  private List<Long> made(NewMovement wanted) {
    Long undone = Wire.number("reverses", wanted.reverses());
    if (undone != null) {
      Long place = log.locationOf(undone);
      signedIn.requireLocation(place);
      return List.of(
          keeping.reverse(
              undone,
              wanted.note(),
              wire.happened(wanted.happenedAt(), wanted.lateReason(), place)));
    }
    Long place = signedIn.locationOr(wanted.location());
    Happened happened = wire.happened(wanted.happenedAt(), wanted.lateReason(), place);
    int packs = Math.abs(Wire.needed("packs", wanted.packs()));
    Long lotId = Wire.number("lotId", wanted.lotId());
    return switch (Wire.needed("reason", wanted.reason())) {
      case DRAWER_TAKE ->
          stock.drawerTake(
              new DrawerTake(
                  lotId,
                  wanted.code(),
                  place,
                  packs,
                  wanted.drawerReason(),
                  wanted.note(),
                  Wire.number("patientId", wanted.patientId()),
                  wanted.laterLotReason()),
              happened);
      case APPOINTMENT ->
          stock.useInAppointment(
              Wire.needed("patientId", Wire.number("patientId", wanted.patientId())),
              place,
              List.of(new PackLine(Wire.needed("lotId", lotId), packs, wanted.laterLotReason())),
              happened);
      case DELIVERY ->
          supply.receive(
              new NewDelivery(
                  place,
                  null,
                  wanted.note(),
                  List.of(
                      new NewDelivery.Line(
                          wanted.code(), wanted.lot(), wanted.expiresOn(), packs, null))),
              happened);
      case DISCARDED, EXPIRED ->
          List.of(
              keeping.discard(Wire.needed("lotId", lotId), place, packs, wanted.note(), happened));
      default ->
          throw new Malformed(
              "reason",
              "“"
                  + wanted.reason().word()
                  + "” is not entered here. Allowed are drawer-take, appointment, delivery,"
                  + " discarded, expired; packs of a program go with its loan, counts and moves"
                  + " have calls of their own.");
    };
  }
}
