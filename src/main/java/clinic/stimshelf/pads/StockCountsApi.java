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

/** Physical counts. */
@Path("/api/stock-counts")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class StockCountsApi {
  @Inject StockKeeping keeping;
  @Inject MovementLog log;
  @Inject SignedIn signedIn;
  @Inject Wire wire;

  /** What was counted; {@code reason} is needed where it differs from the ledger. */
  record CountJson(
      String location,
      String reason,
      List<CountedJson> lines,
      OffsetDateTime happenedAt,
      String lateReason) {}

  /** Whole, sealed packs of a lot. */
  record CountedJson(String lotId, Integer packs) {}

  /** The corrections that came of a count; none where everything was right. */
  record Counted(String location, int lots, List<MovementView> differences) {}

  @POST
  @Idempotent
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Response count(CountJson body) {
    CountJson wanted = Wire.body(body);
    Long place = signedIn.locationOr(wanted.location());
    List<CountedLot> lines =
        Wire.needed("lines", wanted.lines()).stream()
            .map(
                line ->
                    new CountedLot(
                        Wire.needed("lotId", Wire.number("lotId", line.lotId())),
                        Wire.needed("packs", line.packs())))
            .toList();
    List<Long> made =
        keeping.count(
            place,
            lines,
            wanted.reason(),
            wire.happened(wanted.happenedAt(), wanted.lateReason(), place));
    return Response.status(201)
        .entity(new Counted(wanted.location(), lines.size(), log.byIds(made)))
        .build();
  }
}
