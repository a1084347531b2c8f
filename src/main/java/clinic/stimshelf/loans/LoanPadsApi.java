package clinic.stimshelf.loans;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.pads.PadOutcome;
import clinic.stimshelf.pads.PadSetView;
import clinic.stimshelf.program.PadsAhead;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.time.LocalDate;
import java.util.List;

/** The pads that are worn with a loan: opened, ended, changed next. */
@Path("/api/loans/{loan}/pad-sets")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class LoanPadsApi {
  @Inject PadsWorn worn;
  @Inject PadsAhead ahead;
  @Inject Loans loans;
  @Inject EventTimes times;
  @Inject SignedIn signedIn;

  /**
   * A set in use.
   *
   * @param uses sessions that were told of
   * @param expectedUses sessions nobody told of that probably took place
   * @param openingAssumed whether nobody told of the opening
   * @param nextOn when it is to be changed, or {@code null} if it lasts or nobody knows
   */
  record SetJson(
      String id,
      String code,
      String lot,
      int pads,
      LocalDate openedOn,
      boolean openingAssumed,
      int uses,
      int expectedUses,
      int plannedUses,
      LocalDate lastUsableOn,
      LocalDate nextOn) {}

  /** A set that was opened. */
  record Opening(String code, String lotId, LocalDate openedOn) {}

  /** How a set ended; {@code next} if the patient opened the next one. */
  record Ending(PadOutcome outcome, LocalDate endedOn, String reason, String lotId, boolean next) {}

  @GET
  public List<SetJson> list(@PathParam("loan") String id) {
    return sets(mine(id));
  }

  @POST
  @Idempotent
  @Retried
  public List<SetJson> opened(@PathParam("loan") String id, Opening body) {
    Opening told = given(body);
    Long loan = mine(id);
    worn.opened(loan, told.code(), Ids.optional(told.lotId(), "lot"), told.openedOn(), times.now());
    return sets(loan);
  }

  @POST
  @Path("{set}/end")
  @Idempotent
  @Retried
  public List<SetJson> ended(
      @PathParam("loan") String id, @PathParam("set") String set, Ending body) {
    Ending told = given(body);
    Long loan = mine(id);
    worn.ended(
        loan,
        Ids.of(set, "pad set"),
        new PadsWorn.Ending(
            told.outcome(),
            told.endedOn(),
            told.reason(),
            Ids.optional(told.lotId(), "lot"),
            told.next()),
        times.now());
    return sets(loan);
  }

  private List<SetJson> sets(Long loan) {
    List<PadsAhead.Change> next = ahead.next(Long.valueOf(loans.byId(loan).programId()));
    return worn.inUse(loan).stream().map(set -> json(set, next)).toList();
  }

  private static SetJson json(PadSetView set, List<PadsAhead.Change> next) {
    return new SetJson(
        String.valueOf(set.id()),
        set.code(),
        set.lot(),
        set.pads(),
        set.openedOn(),
        set.openingAssumed(),
        set.uses(),
        set.expectedUses(),
        set.plannedUses(),
        set.lastUsableOn(),
        next.stream()
            .filter(change -> change.code().equals(set.code()))
            .findFirst()
            .map(PadsAhead.Change::day)
            .orElse(null));
  }

  private Long mine(String id) {
    Long loan = Ids.of(id, "loan");
    signedIn.requireLocation(loans.locationOf(loan));
    return loan;
  }

  private static <T> T given(T body) {
    if (body == null) {
      throw new Malformed(null, "The call needs a JSON body.");
    }
    return body;
  }
}
