package clinic.stimshelf.loans;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.pads.PackLine;
import clinic.stimshelf.pads.PadOutcome;
import clinic.stimshelf.shelf.Soiling;
import clinic.stimshelf.web.Idempotent;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.IfMatch;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/** The life of a loan for scripts. */
@Path("/api/loans")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class LoanApi {
  @Inject CheckOut checkOut;
  @Inject CheckIn checkIn;
  @Inject LoanTurns turns;
  @Inject Loans loans;
  @Inject SignedIn signedIn;

  /** Packs of a lot, as scripts name them. */
  public record PacksIn(String lotId, Integer packs, String laterLotReason) {
    PackLine line() {
      return new PackLine(
          Ids.field("packs.lotId", lotId), packs == null ? 0 : packs, laterLotReason);
    }
  }

  /** A part that stays behind. */
  public record LeftBehindIn(String kitItemId, String reason) {}

  /** The body of a check out. */
  public record LoanIn(
      String programId,
      String unitTag,
      List<PacksIn> packs,
      Set<Identifier> identifiers,
      List<LeftBehindIn> leftBehind,
      String packsReason,
      CheckOutOrder.Agreement agreement,
      LocalDate bringInOn,
      Integer useCounter,
      String note,
      OffsetDateTime happenedAt,
      String lateReason) {

    CheckOutOrder order() {
      return new CheckOutOrder(
          Ids.field("programId", programId),
          unitTag,
          lines(packs),
          identifiers,
          leftBehind == null
              ? List.of()
              : leftBehind.stream()
                  .map(
                      one ->
                          new CheckOutOrder.LeftBehind(
                              Ids.field("leftBehind.kitItemId", one.kitItemId()), one.reason()))
                  .toList(),
          packsReason,
          agreement,
          bringInOn,
          useCounter,
          note,
          instant(happenedAt),
          lateReason);
    }
  }

  /** The body of a check in; a part not named is present, a pad set not named still good. */
  public record ReturnIn(
      Map<String, CameBack> parts,
      Trouble trouble,
      String troubleWords,
      List<PacksIn> sealedPacks,
      Map<String, PadOutcome> padSets,
      Set<Soiling> soiling,
      Integer useCounter,
      String location,
      String note,
      OffsetDateTime happenedAt,
      String lateReason) {

    CheckInOrder order() {
      return new CheckInOrder(
          keyed("parts", parts),
          trouble,
          troubleWords,
          lines(sealedPacks),
          keyed("padSets", padSets),
          soiling,
          useCounter,
          location,
          note,
          instant(happenedAt),
          lateReason);
    }
  }

  /** The body of an extension. */
  public record ExtensionIn(
      Integer weeks,
      String dueKind,
      String reason,
      LocalDate bringInOn,
      OffsetDateTime happenedAt,
      String lateReason) {}

  /** The body of a swap. */
  public record SwapIn(
      String unitTag,
      Trouble trouble,
      String reason,
      OffsetDateTime happenedAt,
      String lateReason) {}

  /** The body of a call that needs only a reason. */
  public record ReasonIn(String reason, OffsetDateTime happenedAt, String lateReason) {}

  /** Two loans whose units were mixed up. */
  public record MixUpIn(
      String loanId, String otherLoanId, String reason, OffsetDateTime since, String lateReason) {}

  /** Packs that were owed. */
  public record GiveIn(List<PacksIn> packs, OffsetDateTime happenedAt, String lateReason) {}

  /** How something owed was settled. */
  public record SettleIn(String how, OffsetDateTime happenedAt, String lateReason) {}

  @GET
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public Page<LoanView> list(
      @QueryParam("location") String location,
      @QueryParam("state") String state,
      @BeanParam Paging paging) {
    return loans.list(signedIn.locationsOr(location), !"all".equals(state), paging);
  }

  @POST
  @Idempotent
  @Retried
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public LoanView checkOut(LoanIn body) {
    return loans.byId(checkOut.checkOut(given(body).order()));
  }

  @GET
  @Path("/{id}")
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public LoanView one(@PathParam("id") String id) {
    return seen(id);
  }

  @POST
  @Path("/{id}/return")
  @Idempotent
  @Retried
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public LoanView checkIn(
      @PathParam("id") String id, @HeaderParam("If-Match") String match, ReturnIn body) {
    Loan row = loans.row(Ids.of(id, "loan"));
    CheckInOrder order = body == null ? CheckInOrder.complete() : body.order();
    IfMatch.require(IfMatch.version(match), row.version, "The loan");
    checkIn.checkIn(row.id, order);
    return loans.byId(row.id);
  }

  @POST
  @Path("/{id}/extension")
  @Idempotent
  @Retried
  @RolesAllowed(Roles.THERAPIST)
  public LoanView extend(
      @PathParam("id") String id, @HeaderParam("If-Match") String match, ExtensionIn body) {
    Long loan = matched(id, match);
    ExtensionIn in = given(body);
    turns.extend(
        loan,
        new LoanTurns.Extension(
            in.weeks(),
            in.dueKind(),
            in.reason(),
            in.bringInOn(),
            instant(in.happenedAt()),
            in.lateReason()));
    return loans.byId(loan);
  }

  @POST
  @Path("/{id}/swap")
  @Idempotent
  @Retried
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public LoanView swap(
      @PathParam("id") String id, @HeaderParam("If-Match") String match, SwapIn body) {
    Long loan = matched(id, match);
    SwapIn in = given(body);
    turns.swap(
        loan,
        new LoanTurns.Swap(
            in.unitTag(), in.trouble(), in.reason(), instant(in.happenedAt()), in.lateReason()));
    return loans.byId(loan);
  }

  @POST
  @Path("/{id}/missing")
  @Idempotent
  @Retried
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public LoanView missing(@PathParam("id") String id, ReasonIn body) {
    Long loan = matched(id, null);
    ReasonIn in = given(body);
    turns.missing(loan, in.reason(), instant(in.happenedAt()), in.lateReason());
    return loans.byId(loan);
  }

  @POST
  @Path("/{id}/void")
  @Idempotent
  @Retried
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public LoanView annul(@PathParam("id") String id, ReasonIn body) {
    Long loan = matched(id, null);
    ReasonIn in = given(body);
    turns.annul(loan, in.reason(), instant(in.happenedAt()), in.lateReason());
    return loans.byId(loan);
  }

  @POST
  @Path("/mix-up")
  @Idempotent
  @Retried
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public List<LoanView> mixUp(MixUpIn body) {
    MixUpIn in = given(body);
    Long one = matched(in.loanId(), null);
    Long other = matched(in.otherLoanId(), null);
    turns.mixUp(one, other, in.reason(), instant(in.since()), in.lateReason());
    return List.of(loans.byId(one), loans.byId(other));
  }

  @POST
  @Path("/{id}/packs")
  @Idempotent
  @Retried
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public LoanView givePacks(@PathParam("id") String id, GiveIn body) {
    Long loan = matched(id, null);
    GiveIn in = given(body);
    turns.givePacks(loan, lines(in.packs()), instant(in.happenedAt()), in.lateReason());
    return loans.byId(loan);
  }

  @POST
  @Path("/{id}/owed/{owedId}/settled")
  @Idempotent
  @Retried
  @RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
  public LoanView settle(
      @PathParam("id") String id, @PathParam("owedId") String owedId, SettleIn body) {
    Long loan = matched(id, null);
    SettleIn in = given(body);
    turns.settle(
        loan, Ids.field("owedId", owedId), in.how(), instant(in.happenedAt()), in.lateReason());
    return loans.byId(loan);
  }

  private LoanView seen(String id) {
    Loan row = loans.row(Ids.of(id, "loan"));
    signedIn.requireLocation(row.locationId);
    return loans.byId(row.id);
  }

  /** The loan's number, if the person may act there and nobody changed it since it was read. */
  private Long matched(String id, String match) {
    Loan row = loans.row(Ids.of(id, "loan"));
    signedIn.requireLocation(row.locationId);
    IfMatch.require(IfMatch.version(match), row.version, "The loan");
    return row.id;
  }

  private static List<PackLine> lines(List<PacksIn> packs) {
    return packs == null ? List.of() : packs.stream().map(PacksIn::line).toList();
  }

  private static <V> Map<Long, V> keyed(String field, Map<String, V> byText) {
    return byText == null
        ? Map.of()
        : byText.entrySet().stream()
            .collect(
                Collectors.toMap(
                    ((Function<Map.Entry<String, V>, String>) Map.Entry::getKey)
                        .andThen(key -> Ids.field(field, key)),
                    Map.Entry::getValue));
  }

  private static Instant instant(OffsetDateTime time) {
    return time == null ? null : time.toInstant();
  }

  private static <T> T given(T body) {
    if (body == null) {
      throw new Malformed(null, "The call needs a JSON body.");
    }
    return body;
  }
}
