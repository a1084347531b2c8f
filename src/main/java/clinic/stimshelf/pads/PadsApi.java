package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.IfMatch;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.math.BigDecimal;
import java.net.URI;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;

/** Pads: what there is, when to order, and the types themselves. */
@Path("/api/pads")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class PadsApi {
  @Inject PadCatalog catalog;
  @Inject Reorders reorders;
  @Inject PadStock stock;
  @Inject PadWear wear;
  @Inject Expiry expiry;
  @Inject Transfers transfers;
  @Inject SignedIn signedIn;

  /** A pad type; what it costs is for managers alone. */
  record TypeJson(
      String id,
      String code,
      String name,
      PadShape shape,
      int widthMm,
      int heightMm,
      String inches,
      String centimeters,
      String connector,
      int padsPerPack,
      int setsPerPouch,
      int ratedUses,
      int openDays,
      @JsonFormat(shape = JsonFormat.Shape.STRING) BigDecimal price,
      String supplier,
      int leadDays,
      int packsPerCase,
      int minimumOrder,
      @JsonFormat(shape = JsonFormat.Shape.STRING) BigDecimal orderCost,
      @JsonFormat(shape = JsonFormat.Shape.STRING) BigDecimal holdingCost,
      int shelfDays,
      boolean active,
      int version) {}

  /** Packs of a lot at the location. */
  record LotJson(String id, String lot, LocalDate expiresOn, LotState state, int packs) {}

  /** One pad type at a location, and what the other locations have. */
  record PadJson(
      @JsonUnwrapped PadPosition here,
      TypeJson type,
      List<LotJson> lots,
      List<PadPosition> elsewhere) {}

  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Page<PadPosition> list(@QueryParam("location") String location, @BeanParam Paging paging) {
    List<PadPosition> all = new ArrayList<>();
    signedIn.locationsOr(location).forEach(place -> all.addAll(reorders.positions(place)));
    return paging.cut(all);
  }

  @GET
  @Path("{code}")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public PadJson one(@PathParam("code") String code, @QueryParam("location") String location) {
    Long here = signedIn.locationOr(location);
    return new PadJson(
        reorders.position(code, here),
        json(catalog.byCode(code)),
        stock.lotsAt(code, here).stream()
            .map(
                lot ->
                    new LotJson(
                        String.valueOf(lot.id()),
                        lot.number(),
                        lot.expiresOn(),
                        lot.state(),
                        lot.packs()))
            .toList(),
        signedIn.locationIds().stream()
            .filter(place -> !place.equals(here))
            .map(place -> reorders.position(code, place))
            .toList());
  }

  @GET
  @Path("{code}/reorder")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public ReorderView reorder(
      @PathParam("code") String code, @QueryParam("location") String location) {
    return reorders.reorder(code, signedIn.locationOr(location));
  }

  /** What will expire unused at the present pace, and where it could be used instead. */
  @GET
  @Path("expiry")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Expiry.View expiring(@QueryParam("location") String location) {
    return expiry.at(signedIn.locationsOr(location), signedIn.locationIds());
  }

  /** Packs that could be moved here from where there are too many, before any are ordered. */
  @GET
  @Path("{code}/transfers")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public List<Transfers.Proposal> transfers(
      @PathParam("code") String code, @QueryParam("location") String location) {
    Long here = signedIn.locationOr(location);
    return transfers
        .into(here, reorders.all(here), signedIn.locationIds())
        .getOrDefault(catalog.byCode(code).code(), List.of());
  }

  /** How long sets of it last, and which lot is worse than the rest. */
  @GET
  @Path("{code}/wear")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public WearView wear(@PathParam("code") String code, @QueryParam("location") String location) {
    return wear.of(code, signedIn.locationOr(location));
  }

  @POST
  @Idempotent
  @RolesAllowed(Roles.MANAGER)
  public Response add(NewPadType body) {
    catalog.add(Wire.body(body));
    return Response.created(URI.create("/api/pads/" + body.code()))
        .entity(json(catalog.byCode(body.code())))
        .build();
  }

  @PUT
  @Path("{code}")
  @RolesAllowed(Roles.MANAGER)
  public TypeJson change(
      @PathParam("code") String code, @HeaderParam("If-Match") String tag, NewPadType body) {
    catalog.change(code, Wire.body(body), IfMatch.version(tag));
    return json(catalog.byCode(code));
  }

  private TypeJson json(PadTypeView type) {
    boolean costs = signedIn.has(Roles.MANAGER);
    return new TypeJson(
        String.valueOf(type.id()),
        type.code(),
        type.name(),
        type.shape(),
        type.widthMm(),
        type.heightMm(),
        type.inches(),
        type.centimeters(),
        type.connector(),
        type.padsPerPack(),
        type.setsPerPouch(),
        type.ratedUses(),
        type.openDays(),
        costs ? type.price() : null,
        type.supplier(),
        type.leadDays(),
        type.packsPerCase(),
        type.minimumOrder(),
        costs ? type.orderCost() : null,
        costs ? type.holdingCost() : null,
        type.shelfDays(),
        type.active(),
        type.version());
  }
}
