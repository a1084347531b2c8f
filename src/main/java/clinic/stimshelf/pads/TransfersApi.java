package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.time.OffsetDateTime;
import java.util.List;

/** Packs that move from one location to another. */
@Path("/api/transfers")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class TransfersApi {
  @Inject StockKeeping keeping;
  @Inject MovementLog log;
  @Inject SignedIn signedIn;
  @Inject Wire wire;

  /** A transfer as sent; locations by code. */
  record TransferJson(
      String from,
      String to,
      String note,
      List<LineJson> lines,
      OffsetDateTime happenedAt,
      String lateReason) {}

  /** Packs of a lot. */
  record LineJson(String lotId, Integer packs) {}

  /** Both sides of what moved. */
  record Transferred(List<MovementView> movements) {}

  @POST
  @Idempotent
  @RolesAllowed({Roles.FRONT_DESK, Roles.MANAGER})
  public Response transfer(TransferJson body) {
    TransferJson wanted = Wire.body(body);
    Long from = signedIn.locationOr(Wire.needed("from", wanted.from()));
    Long to = signedIn.locationOr(Wire.needed("to", wanted.to()));
    List<Long> made =
        keeping.transfer(
            from,
            to,
            Wire.needed("lines", wanted.lines()).stream()
                .map(
                    line ->
                        new PackLine(
                            Wire.needed("lotId", Wire.number("lotId", line.lotId())),
                            Wire.needed("packs", line.packs()),
                            null))
                .toList(),
            wanted.note(),
            wire.happened(wanted.happenedAt(), wanted.lateReason(), from));
    return Response.status(201).entity(new Transferred(log.byIds(made))).build();
  }
}
