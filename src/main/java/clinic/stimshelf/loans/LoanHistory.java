package clinic.stimshelf.loans;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.program.ProgramFacts;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.shelf.Entered.EnteredUse;
import clinic.stimshelf.shelf.KitItemView;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.ShelfEntries;
import clinic.stimshelf.shelf.UseKind;
import clinic.stimshelf.web.JustEntered;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.Map;

/** Enters loans, and turns in them, that took place before this program was there. */
@ApplicationScoped
public class LoanHistory {
  @Inject LoanRows rows;
  @Inject LoanRequests requestRows;
  @Inject LoanChanges changes;
  @Inject LoanParts parts;
  @Inject Shelf shelf;
  @Inject Programs programs;
  @Inject ShelfEntries units;
  @Inject Locations locations;
  @Inject JustEntered entered;
  @Inject Trail trail;
  @Inject Clock clock;
  @Inject Event<LoanChanged> changed;

  /**
   * Enters a loan.
   *
   * @return its number
   * @throws clinic.stimshelf.web.Refusal with everything that stands against the row
   */
  @Transactional
  public Long enter(PastLoan past) {
    Long known = known(past.ref());
    if (known != null) {
      return known;
    }
    ProgramFacts program = programs.facts(past.programId());
    Refusals refusals = new Refusals();
    Long unitId = units.unitId(past.unitTag());
    if (unitId == null) {
      refusals.add("unit", "There is no unit with the tag “" + past.unitTag() + "”.");
    }
    if (past.checkedOutAt().isAfter(clock.instant())) {
      refusals.add("checked_out_at", "The check out lies in the future.");
    }
    if (past.returnedAt() != null && past.returnedAt().isBefore(past.checkedOutAt())) {
      refusals.add("returned_at", "The unit came back before it went out.");
    }
    if (past.returnedAt() != null && past.missing()) {
      refusals.add("state", "A unit that came back is not missing.");
    }
    if (past.writtenOffAt() != null
        && (past.returnedAt() != null || past.writtenOffAt().isBefore(past.checkedOutAt()))) {
      refusals.add(
          "written_off_at", "Only a unit that went out before and did not return is written off.");
    }
    if (past.endedAt() == null
        && (entered.find("open loan of program", String.valueOf(program.id())) != null
            || rows.count("openProgramId", program.id()) > 0)) {
      refusals.add("program", "Another loan is open with this program.");
    }
    refusals.throwIfAny();
    Loan loan = new Loan();
    loan.ref = past.ref();
    loan.unitId = unitId;
    loan.patientId = program.patientId();
    loan.programId = program.id();
    loan.programVersion = program.version();
    loan.locationId = program.locationId();
    loan.checkedOutAt = past.checkedOutAt();
    loan.dueOn = past.dueOn();
    loan.dueKind = program.dueWord();
    loan.note = past.note();
    loan.state =
        past.returnedAt() != null
            ? LoanState.RETURNED
            : past.missing() ? LoanState.MISSING : LoanState.OUT;
    if (past.returnedAt() != null) {
      loan.returned(past.returnedAt(), program.locationId());
    } else if (past.writtenOffAt() != null) {
      loan.lost(past.writtenOffAt());
    } else {
      loan.openProgramId = program.id();
      entered.add("open loan of program", String.valueOf(program.id()), program.id());
    }
    rows.persist(loan);
    entered.add("loan", past.ref(), loan.id);
    units.enterUse(
        new EnteredUse(
            loan.unitId,
            UseKind.LOAN,
            loan.id,
            past.checkedOutAt(),
            locations.closingTime(loan.locationId, past.dueOn()),
            past.endedAt(),
            past.missing() && past.endedAt() == null,
            null));
    if (past.endedAt() == null) {
      writeParts(loan);
    }
    Map<String, Object> after = new LinkedHashMap<>();
    after.put("unit", past.unitTag());
    after.put("dueOn", past.dueOn());
    after.put("state", loan.state.word());
    trail.record(
        Subject.of("loan", loan.id),
        loan.locationId,
        "imported",
        Happened.at(past.checkedOutAt()),
        null,
        after);
    if (past.endedAt() == null) {
      changed.fire(new LoanChanged(loan.id, loan.patientId));
    }
    return loan.id;
  }

  /** What of its kit a unit that is out has with it, so that it is counted when it comes back. */
  private void writeParts(Loan loan) {
    for (KitItemView item : shelf.byId(loan.unitId).contents()) {
      if (item.present()) {
        LoanPart part = new LoanPart();
        part.loanId = loan.id;
        part.kitItemId = item.id();
        part.words = item.tag() == null ? item.name() : item.name() + " " + item.tag();
        part.essential = item.essential();
        part.wentAlong = true;
        parts.persist(part);
      }
    }
  }

  /**
   * Enters a wish for a unit that is still open. A known {@code ref} changes nothing.
   *
   * @return its number
   * @throws clinic.stimshelf.web.Refusal with everything that stands against the row
   */
  @Transactional
  public Long enterRequest(
      String ref, Long programId, LocalDate neededFrom, int priority, Instant waitingSince) {
    LoanRequest known = requestRows.find("ref", ref).firstResult();
    if (known != null) {
      return known.id;
    }
    SignedProgram program = programs.signed(programId).orElse(null);
    Refusals refusals = new Refusals();
    if (program == null) {
      refusals.add("program", "The program is not signed.", "Ask for a unit once it is.");
    }
    if (requestRows.count("openProgramId", programId) > 0) {
      refusals.add("program", "A unit is already asked for with this program.");
    }
    if (rows.count("openProgramId", programId) > 0) {
      refusals.add("program", "A unit is out with this program.");
    }
    refusals.throwIfAny();
    LoanRequest row = new LoanRequest();
    row.ref = ref;
    row.programId = programId;
    row.openProgramId = programId;
    row.patientId = program.patientId();
    row.locationId = program.locationId();
    row.channels = program.channels();
    row.neededFrom = neededFrom;
    row.priority = priority;
    row.waitingSince = waitingSince;
    row.state = RequestState.OPEN;
    requestRows.persist(row);
    trail.record(
        Subject.of("program", programId),
        row.locationId,
        "request imported",
        Happened.at(waitingSince),
        null,
        Map.of("neededFrom", neededFrom, "priority", priority));
    return row.id;
  }

  /** Enters an extension or a swap of a loan. */
  @Transactional
  public void enterTurn(
      Long loanId, ChangeKind kind, Instant at, String fromUnit, LocalDate fromDue, String reason) {
    Loan loan = rows.findById(loanId);
    LoanChange turn = new LoanChange();
    turn.loanId = loan.id;
    turn.kind = kind;
    turn.happenedAt = at;
    turn.recordedAt = clock.instant();
    turn.byName = "imported";
    turn.reason = reason;
    if (fromUnit != null) {
      turn.fromUnitId = units.unitId(fromUnit);
      turn.toUnitId = loan.unitId;
    }
    if (fromDue != null) {
      turn.fromDue = fromDue;
      turn.toDue = loan.dueOn;
    }
    changes.persist(turn);
  }

  /** The number of the loan with the ref, or {@code null}. */
  public Long known(String ref) {
    if (ref == null) {
      return null;
    }
    Long just = entered.find("loan", ref);
    return just != null
        ? just
        : rows.find("ref", ref).firstResultOptional().map(loan -> loan.id).orElse(null);
  }
}
