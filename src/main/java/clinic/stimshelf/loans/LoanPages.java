package clinic.stimshelf.loans;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.audit.TrailEntry;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.GivenPacks;
import clinic.stimshelf.pads.LotView;
import clinic.stimshelf.pads.PackLine;
import clinic.stimshelf.pads.PadOutcome;
import clinic.stimshelf.pads.PadSetView;
import clinic.stimshelf.pads.PadStock;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.PadsAhead;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Retried;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** A loan: where it stands, what is owed, and every turn it can take. */
@Path("/loans/{id}")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class LoanPages {
  @Inject Loans loans;
  @Inject LoanTurns turns;
  @Inject PackScan packScan;
  @Inject PadStock stock;
  @Inject PadsWorn worn;
  @Inject PadsAhead ahead;
  @Inject EventTimes times;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject Trail trail;
  @Inject SignedIn signedIn;

  @CheckedTemplate(basePath = "loans", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record LoanPage(
      LoanView loan,
      PatientView patient,
      List<ReminderDays.Rung> ladder,
      List<GivenPacks> given,
      List<Worn> worn,
      List<Option> unworn,
      List<Option> outcomes,
      List<TrailEntry> trail,
      Form form,
      List<Option> troubles,
      List<Reason> refused,
      String notice,
      LocalDate today,
      ZoneId zone,
      boolean therapist)
      implements TemplateInstance {}

  /**
   * A set in use.
   *
   * @param prefix before the names of its fields
   * @param next when it is to be changed, or {@code null} if that is not known
   */
  record Worn(PadSetView set, String prefix, PadsAhead.Change next, List<Option> lots) {}

  @GET
  public TemplateInstance show(
      @PathParam("id") String id,
      @QueryParam("done") String done,
      @QueryParam("open") String open) {
    return page(id, Form.empty().prefill("open", open), List.of(), notice(done));
  }

  @POST
  @Path("/extension")
  @Retried
  @RolesAllowed(Roles.THERAPIST)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response extend(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "extended",
        (loan, form) -> {
          int weeks = form.whole("weeks", "The number of weeks", 1, 26);
          String reason = form.text("reason", "The reason", 500);
          LocalDate bringIn = form.optionalDay("bring-in-on", "The day");
          form.throwIfWrong();
          turns.extend(
              loan,
              new LoanTurns.Extension(
                  weeks,
                  form.has("due-kind") ? form.value("due-kind") : null,
                  reason,
                  bringIn,
                  null,
                  null));
        });
  }

  @POST
  @Path("/swap")
  @Retried
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response swap(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "swapped",
        (loan, form) -> {
          Instant at = at(form, loan);
          Trouble trouble = form.has("trouble") ? Trouble.of(form.value("trouble")) : null;
          form.throwIfWrong();
          turns.swap(
              loan,
              new LoanTurns.Swap(
                  form.value("unit"),
                  trouble,
                  form.value("reason"),
                  at,
                  form.value("late-reason")));
        });
  }

  @POST
  @Path("/missing")
  @Retried
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response missing(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "missing",
        (loan, form) ->
            turns.missing(loan, form.value("reason"), at(form, loan), form.value("late-reason")));
  }

  @POST
  @Path("/void")
  @Retried
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response annul(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "void",
        (loan, form) ->
            turns.annul(loan, form.value("reason"), at(form, loan), form.value("late-reason")));
  }

  @POST
  @Path("/mix-up")
  @Retried
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response mixUp(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "mix-up",
        (loan, form) -> {
          String other = form.text("other-unit", "The other unit's tag", 32);
          Instant at = at(form, loan);
          form.throwIfWrong();
          Long otherLoan =
              Long.valueOf(
                  loans
                      .openOfTag(other)
                      .orElseThrow(
                          () -> new Refusal("other-unit", "Unit " + other + " is not on loan."))
                      .id());
          signedIn.requireLocation(loans.locationOf(otherLoan));
          turns.mixUp(loan, otherLoan, form.value("reason"), at, form.value("late-reason"));
        });
  }

  @POST
  @Path("/packs")
  @Retried
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response givePacks(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "packs",
        (loan, form) -> {
          LoanView view = loans.byId(loan);
          Set<String> codes = new LinkedHashSet<>();
          view.owed().stream().filter(OwedView::open).map(OwedView::code).forEach(codes::add);
          codes.remove(null);
          String code = form.text("pack", "The pack", 400);
          int packs = form.whole("count", "The number of packs", 1, 99);
          form.throwIfWrong();
          LotView lot =
              packScan
                  .find(code, codes, locations.byCode(view.location()).id())
                  .orElseThrow(
                      () ->
                          new Refusal(
                              "pack", "“" + code + "” is no pack of the pads that are owed."));
          turns.givePacks(
              loan,
              List.of(new PackLine(lot.id(), packs, form.value("later-lot-reason"))),
              null,
              null);
        });
  }

  @POST
  @Path("/owed/{owed}")
  @Retried
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response settle(
      @PathParam("id") String id,
      @PathParam("owed") String owed,
      MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "settled",
        (loan, form) -> turns.settle(loan, Ids.of(owed, "loan"), form.value("how"), null, null));
  }

  /** How a set ended; the next one of its kind is opened with it. */
  @POST
  @Path("/pads/{set}")
  @Retried
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response padsEnded(
      @PathParam("id") String id,
      @PathParam("set") String set,
      MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "pads",
        (loan, form) -> {
          String prefix = "set-" + Ids.of(set, "pad set") + "-";
          LocalDate day = form.optionalDay(prefix + "on", "The day");
          String reason = form.optionalText(prefix + "reason", "The reason", 300);
          form.throwIfWrong();
          worn.ended(
              loan,
              Ids.of(set, "pad set"),
              new PadsWorn.Ending(
                  form.has(prefix + "how") ? PadOutcome.of(form.value(prefix + "how")) : null,
                  day == null ? locations.today(loans.locationOf(loan)) : day,
                  reason,
                  form.has(prefix + "lot") ? Ids.of(form.value(prefix + "lot"), "lot") : null,
                  form.ticked(prefix + "next")),
              times.now());
        });
  }

  /** A set was opened although none is on record. */
  @POST
  @Path("/pads")
  @Retried
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response padsOpened(@PathParam("id") String id, MultivaluedMap<String, String> typed) {
    return turn(
        id,
        typed,
        "pads-opened",
        (loan, form) -> {
          LocalDate day = form.optionalDay("opened-on", "The day");
          String what = form.text("pads", "The pads", 80);
          form.throwIfWrong();
          String[] codeAndLot = what.split(" ", 2);
          worn.opened(
              loan,
              codeAndLot[0],
              codeAndLot.length < 2 ? null : Ids.of(codeAndLot[1], "lot"),
              day == null ? locations.today(loans.locationOf(loan)) : day,
              times.now());
        });
  }

  private interface Turn {
    void run(Long loan, Form form);
  }

  private Response turn(String id, MultivaluedMap<String, String> typed, String done, Turn turn) {
    Form form = Form.of(typed);
    Long loan = Ids.of(id, "loan");
    signedIn.requireLocation(loans.locationOf(loan));
    try {
      turn.run(loan, form);
      return Response.seeOther(URI.create("/loans/" + loan + "?done=" + done)).build();
    } catch (Refusal refusal) {
      return Response.ok(page(id, form, refusal.reasons(), null)).build();
    } catch (InUse inUse) {
      return Response.ok(
              page(id, form, List.of(new Reason("unit", inUse.getMessage(), null)), null))
          .build();
    }
  }

  private TemplateInstance page(String id, Form form, List<Reason> refused, String notice) {
    Long loanId = Ids.of(id, "loan");
    Long locationId = loans.locationOf(loanId);
    signedIn.requireLocation(locationId);
    LoanView loan = loans.byId(loanId);
    form.prefill("count", 1);
    return new LoanPage(
        loan,
        patients.byId(Long.valueOf(loan.patientId())),
        loans.ladder(loanId),
        stock.givenWith(loanId),
        worn(loanId, loan),
        unworn(loanId),
        Arrays.stream(PadOutcome.values())
            .map(outcome -> new Option(outcome.word(), outcome.words()))
            .toList(),
        trail.of(Subject.of("loan", loanId)),
        form,
        Arrays.stream(Trouble.values())
            .map(trouble -> new Option(trouble.word(), trouble.words()))
            .toList(),
        refused,
        notice,
        locations.today(locationId),
        locations.zone(locationId),
        signedIn.has(Roles.THERAPIST));
  }

  private List<Worn> worn(Long loanId, LoanView loan) {
    List<PadsAhead.Change> next = ahead.next(Long.valueOf(loan.programId()));
    return worn.inUse(loanId).stream()
        .map(
            set ->
                new Worn(
                    set,
                    "set-" + set.id() + "-",
                    next.stream()
                        .filter(change -> change.code().equals(set.code()))
                        .findFirst()
                        .orElse(null),
                    worn.lotsOf(loanId, set.code()).stream()
                        .map(pack -> new Option(String.valueOf(pack.lotId()), "lot " + pack.lot()))
                        .toList()))
        .toList();
  }

  /** What was given and no set of is in use. */
  private List<Option> unworn(Long loanId) {
    Set<String> inUse = new LinkedHashSet<>();
    worn.inUse(loanId).forEach(set -> inUse.add(set.code()));
    return stock.givenWith(loanId).stream()
        .filter(pack -> !inUse.contains(pack.code()))
        .map(
            pack ->
                new Option(pack.code() + " " + pack.lotId(), pack.code() + ", lot " + pack.lot()))
        .toList();
  }

  private Instant at(Form form, Long loan) {
    LocalDateTime time = form.optionalDayAndTime("happened-at", "The time");
    form.throwIfWrong();
    return time == null ? null : time.atZone(locations.zone(loans.locationOf(loan))).toInstant();
  }

  private static String notice(String done) {
    return switch (done == null ? "" : done) {
      case "out" -> "The unit is checked out. Print what goes along; nothing else is to do.";
      case "in" -> "The unit is checked in and stands to be wiped.";
      case "extended" -> "The loan is extended. Print the new home instructions.";
      case "swapped" -> "The unit is swapped; the due day stays.";
      case "missing" -> "The unit is recorded as missing.";
      case "void" -> "The loan is void; what it took is back.";
      case "mix-up" -> "Both loans are put right.";
      case "packs" -> "The packs are given.";
      case "pads" -> "What became of the pads is recorded.";
      case "pads-opened" -> "The set is in use from that day on.";
      case "settled" -> "Settled.";
      default -> null;
    };
  }
}
