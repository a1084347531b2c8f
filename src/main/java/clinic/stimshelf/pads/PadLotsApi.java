package clinic.stimshelf.pads;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Roles;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;

/** Lots of pads: where they are, who has them, holding them back and letting them go. */
@Path("/api/pad-lots")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class PadLotsApi {
  @Inject PadLots lots;
  @Inject SignedIn signedIn;
  @Inject Wire wire;

  /** Why a lot is held back or let go. */
  record Change(String reason, boolean recalled, OffsetDateTime happenedAt, String lateReason) {}

  /** Somebody who has pads of the lot. */
  record HolderJson(
      String patientId,
      String loanId,
      String with,
      int packs,
      int openSets,
      LocalDate lastGivenOn) {}

  /** A lot and who has it. */
  record LotJson(@JsonUnwrapped LotStock lot, List<HolderJson> holders) {}

  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Page<LotStock> list(
      @QueryParam("location") String location,
      @QueryParam("code") String code,
      @BeanParam Paging paging) {
    return paging.cut(lots.list(code, signedIn.locationsOr(location)));
  }

  @GET
  @Path("{id}")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public LotJson one(@PathParam("id") String id) {
    Long lot = Wire.id(id);
    return new LotJson(
        lots.byId(lot, signedIn.locationIds()),
        lots.whoHas(lot).stream()
            .map(
                who ->
                    new HolderJson(
                        String.valueOf(who.patientId()),
                        who.loanId() == null ? null : String.valueOf(who.loanId()),
                        who.with(),
                        who.packs(),
                        who.openSets(),
                        who.lastGivenOn()))
            .toList());
  }

  @POST
  @Idempotent
  @Path("{id}/quarantine")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public LotStock quarantine(@PathParam("id") String id, Change change) {
    Change wanted = Wire.body(change);
    lots.quarantine(
        Wire.id(id),
        wanted.reason(),
        wanted.recalled(),
        wire.happened(wanted.happenedAt(), wanted.lateReason(), signedIn.locationOr(null)));
    return lots.byId(Wire.id(id), signedIn.locationIds());
  }

  @POST
  @Idempotent
  @Path("{id}/release")
  @RolesAllowed(Roles.MANAGER)
  public LotStock release(@PathParam("id") String id, Change change) {
    Change wanted = Wire.body(change);
    lots.release(
        Wire.id(id),
        wanted.reason(),
        wire.happened(wanted.happenedAt(), wanted.lateReason(), signedIn.locationOr(null)));
    return lots.byId(Wire.id(id), signedIn.locationIds());
  }
}
