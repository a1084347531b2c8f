package clinic.stimshelf.loans;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.Lots;
import clinic.stimshelf.pads.PackLine;
import clinic.stimshelf.pads.PadSets;
import clinic.stimshelf.pads.PadStock;
import clinic.stimshelf.program.EventTime;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.shelf.Kits;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitCare;
import clinic.stimshelf.shelf.UnitExchange;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.shelf.UseKind;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** The turns a loan can take between check out and check in. */
@ApplicationScoped
public class LoanTurns {
  @Inject UnitExchange exchange;
  @Inject Lots lots;
  @Inject Loans loanBook;
  @Inject LoanRows rows;
  @Inject LoanChanges changes;
  @Inject LoanOwedRows owed;
  @Inject LoanRequests requests;
  @Inject Programs programs;
  @Inject Shelf shelf;
  @Inject UnitCare care;
  @Inject Kits kits;
  @Inject Homecoming homecoming;
  @Inject PadStock stock;
  @Inject PadSets padSets;
  @Inject Locations locations;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Event<LoanChanged> changed;

  /**
   * More weeks. The program gets a new signed version, from which sessions, pads, due day and
   * messages follow.
   *
   * @param weeks added to the program, 1 to 26
   * @param dueKind how the new due day is chosen; {@code null} keeps the kind
   * @param bringInOn day for a safety test that falls inside the longer loan
   */
  public record Extension(
      Integer weeks,
      String dueKind,
      String reason,
      LocalDate bringInOn,
      Instant happenedAt,
      String lateReason) {}

  /**
   * Another unit for the same loan; the due day stays.
   *
   * @param unitTag the unit that goes out instead
   * @param trouble what is wrong with the one that comes back, {@code null} for nothing
   */
  public record Swap(
      String unitTag, Trouble trouble, String reason, Instant happenedAt, String lateReason) {}

  /** Extends a loan by a new signed version of its program. Only a licensed PT can. */
  @Transactional
  public void extend(Long loanId, Extension wanted) {
    Loan loan = loanBook.row(loanId);
    Refusals refusals = new Refusals();
    Happened happened = happened(loan, wanted.happenedAt(), wanted.lateReason(), refusals);
    mustBeOut(loan, refusals);
    if (wanted.weeks() == null || wanted.weeks() < 1 || wanted.weeks() > 26) {
      refusals.add("weeks", "An extension adds 1 to 26 weeks.");
    }
    refusals.throwIfAny();
    LocalDate before = loan.dueOn;
    programs.extend(
        loan.programId,
        wanted.weeks(),
        wanted.dueKind(),
        wanted.reason(),
        new EventTime(wanted.happenedAt(), wanted.lateReason()));
    // The signed version told the loan already (see follow); what is left is the unit itself.
    UnitView unit = shelf.byId(loan.unitId);
    if (unit.nextTestOn() != null && unit.nextTestOn().isBefore(loan.dueOn)) {
      boolean booked = wanted.bringInOn() != null && !wanted.bringInOn().isAfter(unit.nextTestOn());
      if (!booked) {
        refusals.add(
            Shelf.BRING_IN,
            "The safety test of unit "
                + unit.tag()
                + " falls due on "
                + unit.nextTestOn()
                + ", inside the longer loan.",
            "Name the day until then on which the patient brings it in, or swap the unit first.");
      }
    }
    refusals.throwIfAny();
    if (wanted.bringInOn() != null) {
      loan.bringInOn = wanted.bringInOn();
    }
    LoanChange turn = changes.turn(loan, ChangeKind.EXTENSION, happened, wanted.reason());
    turn.fromDue = before;
    turn.toDue = loan.dueOn;
    changes.persist(turn);
    tell(loan, "extended", happened, Map.of("dueOn", before), Map.of("dueOn", loan.dueOn));
  }

  /** The program's signed version changed: version, due day and owed packs follow it. */
  @Transactional(Transactional.TxType.MANDATORY)
  void follow(Loan loan, SignedProgram program, Happened happened) {
    LocalDate before = loan.dueOn;
    loan.programVersion = program.version();
    loan.dueOn = program.dueOn();
    loan.dueKind = program.dueWord();
    if (!before.equals(loan.dueOn)) {
      shelf.expect(
          loan.unitId,
          UseKind.LOAN,
          loan.id,
          locations.closingTime(loan.locationId, loan.dueOn),
          happened);
      LoanChange turn = changes.turn(loan, ChangeKind.DUE_MOVED, happened, "the program changed");
      turn.fromDue = before;
      turn.toDue = loan.dueOn;
      changes.persist(turn);
    }
    owePacksAnew(loan, program);
    changed.fire(new LoanChanged(loan.id, loan.patientId));
  }

  /** Owed packs are those of the whole program less what the patient was given. */
  private void owePacksAnew(Loan loan, SignedProgram program) {
    owed.delete(
        "loanId = ?1 and owedBy = ?2 and what = ?3 and settledAt is null",
        loan.id,
        OwedBy.CLINIC,
        OwedKind.PACKS);
    Map<String, Integer> given = new TreeMap<>();
    stock.givenWith(loan.id).forEach(one -> given.merge(one.code(), one.packs(), Integer::sum));
    LocalDate out = LocalDate.ofInstant(loan.checkedOutAt, locations.zone(loan.locationId));
    program.packsNow().forEach(now -> owe(loan, given, now.code(), now.packs(), out));
    program
        .packsLater()
        .forEach(later -> owe(loan, given, later.code(), later.packs(), later.on()));
  }

  private void owe(Loan loan, Map<String, Integer> given, String code, int packs, LocalDate on) {
    int had = Math.min(given.getOrDefault(code, 0), packs);
    given.merge(code, -had, Integer::sum);
    if (packs > had) {
      owed.persist(CheckOut.packs(loan, code, packs - had, on, null));
    }
  }

  /** Another unit takes the place of the one that is out. */
  @Transactional
  public void swap(Long loanId, Swap wanted) {
    Loan loan = loanBook.row(loanId);
    Refusals refusals = new Refusals();
    Happened happened = happened(loan, wanted.happenedAt(), wanted.lateReason(), refusals);
    mustBeOut(loan, refusals);
    if (wanted.reason() == null || wanted.reason().isBlank()) {
      refusals.add("reason", "Say why the unit is swapped.");
    }
    if (wanted.unitTag() == null || wanted.unitTag().isBlank()) {
      refusals.add("unitTag", "Which unit goes out instead?", "Scan its tag.");
      refusals.throwIfAny();
    }
    UnitView fresh = shelf.byTag(wanted.unitTag());
    UnitView old = shelf.byId(loan.unitId);
    if (fresh.id().equals(old.id())) {
      refusals.add("unitTag", "That is the unit which is out already.", "Scan another.");
    } else {
      swapRules(loan, old, fresh, happened, refusals);
    }
    refusals.throwIfAny();
    homecoming.of(old, loan.id, wanted.trouble(), wanted.reason(), happened);
    shelf.begin(
        fresh.id(),
        UseKind.LOAN,
        loan.id,
        null,
        happened.at(),
        locations.closingTime(loan.locationId, loan.dueOn),
        happened);
    loan.unitId = fresh.id();
    loan.state = LoanState.OUT;
    LoanChange turn = changes.turn(loan, ChangeKind.SWAP, happened, wanted.reason());
    turn.fromUnitId = old.id();
    turn.toUnitId = fresh.id();
    changes.persist(turn);
    tell(
        loan,
        "unit swapped",
        happened,
        Map.of("unit", old.tag()),
        Map.of("unit", fresh.tag(), "reason", wanted.reason()));
  }

  private void swapRules(
      Loan loan, UnitView old, UnitView fresh, Happened happened, Refusals refusals) {
    SignedProgram program = programs.signed(loan.programId).orElseThrow();
    if (fresh.channels() < program.channels()) {
      refusals.add(
          "unitTag",
          "Unit "
              + fresh.tag()
              + " has "
              + fresh.channels()
              + " channels; the program needs "
              + program.channels()
              + ".",
          "Take a unit with more channels.");
    }
    if (!fresh.connector().equals(old.connector())) {
      refusals.add(
          "unitTag",
          "The patient's pads have a "
              + old.connector()
              + " connector; unit "
              + fresh.tag()
              + " takes "
              + fresh.connector()
              + ".",
          "Take a unit that fits.");
    }
    for (Reason reason : shelf.whyNotReadyToLeave(fresh.id(), loan.dueOn, happened.at())) {
      refusals.add("unitTag", reason.message(), reason.cure());
    }
    if (!programs.settingConfirmed(loan.programId, fresh.id())) {
      refusals.add(
          "setting",
          "The setting of unit " + fresh.tag() + " is not confirmed to match the program.",
          "A therapist sets it on the unit and confirms it on the program's page.");
    }
  }

  /** Nobody knows where the unit is. */
  @Transactional
  public void missing(Long loanId, String reason, Instant happenedAt, String lateReason) {
    Loan loan = loanBook.row(loanId);
    Refusals refusals = new Refusals();
    Happened happened = happened(loan, happenedAt, lateReason, refusals);
    if (loan.state != LoanState.OUT) {
      refusals.add(null, "This loan is " + loan.state.word() + " already.");
    }
    if (reason == null || reason.isBlank()) {
      refusals.add("reason", "Say what the patient or the carrier told.");
    }
    refusals.throwIfAny();
    loan.state = LoanState.MISSING;
    care.missing(shelf.byId(loan.unitId).tag(), reason, happened);
    changes.persist(changes.turn(loan, ChangeKind.MISSING, happened, reason));
    tell(loan, "unit missing", happened, null, Map.of("reason", reason));
  }

  /** The loan was entered by mistake; nothing ever left. What it took is put back. */
  @Transactional
  public void annul(Long loanId, String reason, Instant happenedAt, String lateReason) {
    Loan loan = loanBook.row(loanId);
    Refusals refusals = new Refusals();
    Happened happened = happened(loan, happenedAt, lateReason, refusals);
    if (loan.state == LoanState.VOID) {
      refusals.add(null, "This loan is void already.");
    }
    if (loan.state == LoanState.LOST) {
      refusals.add(null, "The unit is written off; the loan took place.", "Enter it as found.");
    }
    if (loan.state == LoanState.RETURNED) {
      refusals.add(
          null, "The unit came back; a loan that took place is not void.", "Correct it instead.");
    }
    if (reason == null || reason.isBlank()) {
      refusals.add("reason", "Say what was entered wrongly.");
    }
    refusals.throwIfAny();
    shelf.cancelUse(loan.unitId, UseKind.LOAN, loan.id, happened);
    stock.reverseGiven(loan.id, reason, happened);
    padSets.forgetAssumed(loan.patientId, loan.programId, happened);
    for (LoanOwed row : owed.list("loanId = ?1 and settledAt is null", loanId)) {
      row.settledAt = happened.at();
      row.settledHow = "the loan is void";
    }
    loan.voided();
    changes.persist(changes.turn(loan, ChangeKind.VOID, happened, reason));
    tell(loan, "void", happened, null, Map.of("reason", reason));
  }

  /** Two patients hold each other's units: both loans are put right from a stated time. */
  @Transactional
  public void mixUp(Long oneId, Long otherId, String reason, Instant since, String lateReason) {
    Loan one = loanBook.row(oneId);
    Loan other = loanBook.row(otherId);
    Refusals refusals = new Refusals();
    Happened happened = happened(one, since, lateReason, refusals);
    mustBeOut(one, refusals);
    mustBeOut(other, refusals);
    if (oneId.equals(otherId)) {
      refusals.add("otherId", "A mix-up needs two loans.");
    }
    if (reason == null || reason.isBlank()) {
      refusals.add("reason", "Say how it was found out.");
    }
    Long first = one.unitId;
    Long second = other.unitId;
    exchange.checkSince(first, second, happened, refusals);
    refusals.throwIfAny();
    exchange.exchange(first, one.id, second, other.id, happened);
    exchange(one, first, second, happened, reason);
    exchange(other, second, first, happened, reason);
  }

  private void exchange(Loan loan, Long from, Long to, Happened happened, String reason) {
    loan.unitId = to;
    // Whoever holds which unit is known now; neither is missing.
    loan.state = LoanState.OUT;
    LoanChange turn = changes.turn(loan, ChangeKind.MIX_UP, happened, reason);
    turn.fromUnitId = from;
    turn.toUnitId = to;
    changes.persist(turn);
    tell(
        loan,
        "mix-up put right",
        happened,
        Map.of("unit", shelf.byId(from).tag()),
        Map.of("unit", shelf.byId(to).tag(), "reason", reason));
  }

  /** Gives packs that were owed. */
  @Transactional
  public void givePacks(Long loanId, List<PackLine> packs, Instant happenedAt, String lateReason) {
    Loan loan = loanBook.row(loanId);
    Refusals refusals = new Refusals();
    Happened happened = happened(loan, happenedAt, lateReason, refusals);
    mustBeOut(loan, refusals);
    if (packs.isEmpty()) {
      refusals.add("packs", "Scan the packs that are given.");
    }
    refusals.throwIfAny();
    Map<String, Integer> given = lots.codes(packs);
    Map<String, Integer> open = new TreeMap<>();
    List<LoanOwed> debts =
        owed.list(
            "loanId = ?1 and owedBy = ?2 and what = ?3 and settledAt is null order by dueOn, id",
            loanId,
            OwedBy.CLINIC,
            OwedKind.PACKS);
    debts.forEach(row -> open.merge(row.padCode, row.packs, Integer::sum));
    given.forEach(
        (code, count) -> {
          if (count > open.getOrDefault(code, 0)) {
            refusals.add(
                "packs",
                count
                    + " packs of "
                    + code
                    + " are more than the "
                    + open.getOrDefault(code, 0)
                    + " owed.",
                "Give fewer, or let the therapist change the program.");
          }
        });
    refusals.throwIfAny();
    stock.give(loanId, loan.patientId, loan.locationId, packs, happened);
    Map<String, Integer> left = new TreeMap<>(given);
    for (LoanOwed row : debts) {
      int now = Math.min(left.getOrDefault(row.padCode, 0), row.packs);
      if (now == 0) {
        continue;
      }
      left.merge(row.padCode, -now, Integer::sum);
      if (now < row.packs) {
        owed.persist(CheckOut.packs(loan, row.padCode, row.packs - now, row.dueOn, row.reason));
        row.packs = now;
        row.words = CheckOut.packs(loan, row.padCode, now, row.dueOn, null).words;
      }
      row.settledAt = happened.at();
      row.settledHow = "given";
    }
    changes.persist(changes.turn(loan, ChangeKind.PACKS_GIVEN, happened, null));
    tell(loan, "packs given", happened, null, given);
  }

  /** Something owed was brought, given or waived. */
  @Transactional
  public void settle(Long loanId, Long owedId, String how, Instant happenedAt, String lateReason) {
    Loan loan = loanBook.row(loanId);
    Refusals refusals = new Refusals();
    Happened happened = happened(loan, happenedAt, lateReason, refusals);
    LoanOwed row = owed.findById(owedId);
    if (row == null || !row.loanId.equals(loanId)) {
      refusals.add("owedId", "This loan owes no such thing.");
    } else if (row.settledAt != null) {
      refusals.add("owedId", "This is settled already: " + row.settledHow + ".");
    } else if (row.what == OwedKind.PACKS) {
      refusals.add("owedId", "Packs are given by lot.", "Use “Give owed packs”.");
    }
    if (how == null || how.isBlank()) {
      refusals.add("how", "Say how: brought, given, waived and why.");
    }
    refusals.throwIfAny();
    row.settledAt = happened.at();
    row.settledHow = how.strip();
    if (row.owedBy == OwedBy.PATIENT && row.kitItemId != null && "brought".equals(how.strip())) {
      kits.back(row.kitItemId, happened);
    }
    changes.persist(
        changes.turn(loan, ChangeKind.SETTLED, happened, row.words + ": " + how.strip()));
    tell(loan, "settled", happened, null, Map.of("what", row.words, "how", how.strip()));
  }

  private Happened happened(Loan loan, Instant at, String lateReason, Refusals refusals) {
    Happened happened = times.of(at, lateReason, locations.zone(loan.locationId), refusals);
    if (happened.at().isBefore(loan.checkedOutAt)) {
      refusals.add("happenedAt", "The loan began after that.", "Enter when it took place.");
    }
    return happened;
  }

  private static void mustBeOut(Loan loan, Refusals refusals) {
    if (!loan.open()) {
      refusals.add(null, "This loan is " + loan.state.word() + ".");
    }
  }

  private void tell(
      Loan loan, String action, Happened happened, Map<String, ?> before, Map<String, ?> after) {
    trail.record(
        Subject.of("loan", loan.id),
        loan.locationId,
        action,
        happened,
        before == null ? null : new LinkedHashMap<>(before),
        new LinkedHashMap<>(after));
    changed.fire(new LoanChanged(loan.id, loan.patientId));
  }
}
