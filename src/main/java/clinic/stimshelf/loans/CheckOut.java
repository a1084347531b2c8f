package clinic.stimshelf.loans;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.Lots;
import clinic.stimshelf.pads.PackLine;
import clinic.stimshelf.pads.PadStock;
import clinic.stimshelf.people.ConsentKind;
import clinic.stimshelf.people.Consents;
import clinic.stimshelf.people.NewConsent;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.PacksLater;
import clinic.stimshelf.program.PacksNow;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.shelf.KitItemView;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.shelf.UseKind;
import clinic.stimshelf.web.InUse;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * A unit leaves with its program and pads, or everything that stands against it is said at once.
 */
@ApplicationScoped
public class CheckOut {
  @Inject Lots lots;
  @Inject CheckOutRules rules;
  @Inject KitProposal proposal;
  @Inject Programs programs;
  @Inject Patients patients;
  @Inject Consents consents;
  @Inject Shelf shelf;
  @Inject PadStock stock;
  @Inject PadsWorn wearing;
  @Inject Locations locations;
  @Inject LoanRequests requests;
  @Inject LoanRows loans;
  @Inject LoanParts parts;
  @Inject LoanOwedRows owed;
  @Inject Trail trail;
  @Inject Event<LoanChanged> changed;
  @Inject EventTimes times;

  /**
   * What a person at the counter needs to see before a unit leaves.
   *
   * @param missing everything that still stands against it with what is entered so far
   * @param others kits behind the proposed one, best first
   */
  public record Look(
      PatientView patient,
      SignedProgram program,
      Long requestId,
      UnitView unit,
      String unitWhy,
      List<UnitChoice> others,
      List<PackLine> proposedPacks,
      boolean consentOnRecord,
      List<clinic.stimshelf.web.Reason> missing) {

    /** Another kit that could go. */
    public record UnitChoice(String tag, String why) {}
  }

  /**
   * Looks at a check out without doing it.
   *
   * @param order with what is entered so far; a unit tag of {@code null} proposes one
   */
  @Transactional
  public Look look(CheckOutOrder order) {
    SignedProgram program = signed(order.programId());
    PatientView patient = patients.byId(program.patientId());
    LoanRequest request = requestOf(program.programId());
    Long requestId = request == null ? null : request.id;
    List<KitProposal.Candidate> candidates = proposal.forProgram(program, requestId);
    UnitView unit = null;
    String why = null;
    if (order.unitTag() != null && !order.unitTag().isBlank()) {
      unit = shelf.byTag(order.unitTag());
      String tag = unit.tag();
      why =
          candidates.stream()
              .filter(one -> one.unit().tag().equals(tag))
              .map(KitProposal.Candidate::why)
              .findFirst()
              .orElse("chosen here");
    } else if (!candidates.isEmpty()) {
      unit = candidates.get(0).unit();
      why = candidates.get(0).why();
    }
    Happened now = times.now();
    LocalDate day = locations.today(program.locationId());
    Refusals missing = new Refusals();
    rules.person(program, patient, day, missing);
    if (unit == null) {
      missing.add(
          "unitTag", "No suitable kit is ready.", "See what must be wiped, inspected or charged.");
    } else {
      rules.unit(program, unit, requestId, order, now.at(), missing);
    }
    rules.pads(program, unit, order, missing);
    missing.addAll(stock.whyNotGive(program.locationId(), order.packs(), now.at()));
    rules.agreement(program, patient, order, day, missing);
    String shown = unit == null ? "" : unit.tag();
    return new Look(
        patient,
        program,
        requestId,
        unit,
        why,
        candidates.stream()
            .filter(one -> !one.unit().tag().equals(shown))
            .map(one -> new Look.UnitChoice(one.unit().tag(), one.why()))
            .toList(),
        proposed(program),
        consents.loanConsentOnRecord(patient.id(), program.programId()),
        missing.reasons());
  }

  /** Kits that could go with a program now, best first. */
  @Transactional
  List<Look.UnitChoice> kits(SignedProgram program) {
    LoanRequest request = requestOf(program.programId());
    return proposal.forProgram(program, request == null ? null : request.id).stream()
        .map(one -> new Look.UnitChoice(one.unit().tag(), one.why()))
        .toList();
  }

  /** The kit that would go, or is out, with a program; {@code null} if there is none. */
  @Transactional
  UnitView kitFor(SignedProgram program) {
    Loan loan = loans.find("openProgramId", program.programId()).firstResult();
    if (loan != null) {
      return shelf.byId(loan.unitId);
    }
    LoanRequest request = requestOf(program.programId());
    return proposal.forProgram(program, request == null ? null : request.id).stream()
        .map(KitProposal.Candidate::unit)
        .findFirst()
        .orElse(null);
  }

  /**
   * Checks a unit out.
   *
   * @return the loan's number
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   * @throws InUse if nothing does but that somebody else has the unit
   */
  @Transactional
  public Long checkOut(CheckOutOrder order) {
    SignedProgram program = signed(order.programId());
    PatientView patient = patients.byId(program.patientId());
    Refusals refusals = new Refusals();
    Happened happened =
        times.of(
            order.happenedAt(), order.lateReason(), locations.zone(program.locationId()), refusals);
    LocalDate day = LocalDate.ofInstant(happened.at(), locations.zone(program.locationId()));
    LoanRequest request = requestOf(program.programId());
    Long requestId = request == null ? null : request.id;
    rules.person(program, patient, day, refusals);
    UnitView unit = null;
    if (order.unitTag() == null || order.unitTag().isBlank()) {
      refusals.add("unitTag", "Which unit goes?", "Scan its tag.");
    } else {
      unit = shelf.byTag(order.unitTag());
      rules.unit(program, unit, requestId, order, happened.at(), refusals);
    }
    rules.pads(program, unit, order, refusals);
    refusals.addAll(stock.whyNotGive(program.locationId(), order.packs(), happened.at()));
    rules.agreement(program, patient, order, day, refusals);
    if (refusals.any() && unit != null && rules.taken(unit, requestId)) {
      refusals.addAll(
          shelf.whyNotReadyToLeave(unit.id(), program.dueOn(), happened.at()).stream()
              .filter(reason -> CheckOutRules.TAKEN.equals(reason.field()))
              .toList());
    }
    refusals.throwIfAny();
    return leave(order, program, patient, unit, request, happened);
  }

  private Long leave(
      CheckOutOrder order,
      SignedProgram program,
      PatientView patient,
      UnitView unit,
      LoanRequest request,
      Happened happened) {
    Loan loan = new Loan();
    loan.unitId = unit.id();
    loan.patientId = patient.id();
    loan.programId = program.programId();
    loan.openProgramId = program.programId();
    loan.programVersion = program.version();
    loan.locationId = program.locationId();
    loan.state = LoanState.OUT;
    loan.checkedOutAt = happened.at();
    loan.dueOn = program.dueOn();
    loan.dueKind = program.dueWord();
    loan.bringInOn = order.bringInOn();
    loan.useCounterOut = order.useCounter() == null ? unit.useCounter() : order.useCounter();
    loan.identifiers =
        order.identifiers().stream()
            .map(Identifier::word)
            .sorted()
            .collect(Collectors.joining(", "));
    loan.note = order.note();
    if (order.agreement() != null) {
      loan.agreementVersion = order.agreement().textVersion();
    } else if (request != null) {
      loan.agreementVersion = request.agreementVersion;
    }
    loans.persist(loan);
    if (request != null) {
      if (request.unitId != null && !request.unitId.equals(unit.id())) {
        shelf.release(request.unitId, happened);
      }
      request.filled();
      request.unitId = unit.id();
    }
    shelf.begin(
        unit.id(),
        UseKind.LOAN,
        loan.id,
        request == null ? null : request.id,
        happened.at(),
        locations.closingTime(loan.locationId, loan.dueOn),
        happened);
    stock.give(loan.id, patient.id(), loan.locationId, order.packs(), happened);
    wearing.begin(program, order.packs(), happened);
    if (order.agreement() != null) {
      consents.record(
          new NewConsent(
              null,
              patient.id(),
              ConsentKind.LOAN,
              program.programId(),
              true,
              order.agreement().textVersion(),
              order.agreement().language(),
              order.agreement().signer(),
              order.agreement().relation(),
              order.agreement().means(),
              order.happenedAt(),
              order.lateReason()));
    }
    writeParts(loan, unit, order);
    writeOwed(loan, program, order, happened);
    Map<String, Object> after = new LinkedHashMap<>();
    after.put("unit", unit.tag());
    after.put("program", program.programId() + " version " + program.version());
    after.put("dueOn", loan.dueOn);
    after.put("packs", lots.codes(order.packs()));
    after.put("identifiers", loan.identifiers);
    trail.record(
        Subject.of("loan", loan.id), loan.locationId, "checked out", happened, null, after);
    changed.fire(new LoanChanged(loan.id, loan.patientId));
    return loan.id;
  }

  private void writeParts(Loan loan, UnitView unit, CheckOutOrder order) {
    Map<Long, CheckOutOrder.LeftBehind> behind = new HashMap<>();
    order.leftBehind().forEach(one -> behind.put(one.kitItemId(), one));
    for (KitItemView item : unit.contents()) {
      if (item.state() == clinic.stimshelf.shelf.PartState.REMOVED) {
        continue;
      }
      LoanPart part = new LoanPart();
      part.loanId = loan.id;
      part.kitItemId = item.id();
      part.words = item.tag() == null ? item.name() : item.name() + " " + item.tag();
      part.essential = item.essential();
      part.wentAlong = item.present() && !behind.containsKey(item.id());
      parts.persist(part);
      if (!part.wentAlong) {
        LoanOwed row = new LoanOwed();
        row.loanId = loan.id;
        row.owedBy = OwedBy.CLINIC;
        row.what = OwedKind.PART;
        row.words = part.words;
        row.kitItemId = item.id();
        row.reason = behind.get(item.id()).reason();
        owed.persist(row);
      }
    }
  }

  /** What the program says for later, and what of today's packs did not leave. */
  private void writeOwed(Loan loan, SignedProgram program, CheckOutOrder order, Happened happened) {
    Map<String, Integer> left = new TreeMap<>(lots.codes(order.packs()));
    List<LoanOwed> rows = new ArrayList<>();
    LocalDate day = LocalDate.ofInstant(happened.at(), locations.zone(loan.locationId));
    for (PacksNow now : program.packsNow()) {
      int extra = left.getOrDefault(now.code(), 0) - now.packs();
      left.put(now.code(), Math.max(0, extra));
      if (extra < 0) {
        rows.add(packs(loan, now.code(), -extra, day, order.packsReason()));
      }
    }
    for (PacksLater later : program.packsLater()) {
      int had = Math.min(left.getOrDefault(later.code(), 0), later.packs());
      left.merge(later.code(), -had, Integer::sum);
      if (later.packs() > had) {
        rows.add(packs(loan, later.code(), later.packs() - had, later.on(), null));
      }
    }
    rows.forEach(owed::persist);
  }

  static LoanOwed packs(Loan loan, String code, int packs, LocalDate on, String reason) {
    LoanOwed row = new LoanOwed();
    row.loanId = loan.id;
    row.owedBy = OwedBy.CLINIC;
    row.what = OwedKind.PACKS;
    row.words = packs == 1 ? "1 pack of " + code : packs + " packs of " + code;
    row.padCode = code;
    row.packs = packs;
    row.dueOn = on;
    row.reason = reason;
    return row;
  }

  private List<PackLine> proposed(SignedProgram program) {
    List<PackLine> lines = new ArrayList<>();
    for (PacksNow now : program.packsNow()) {
      lines.addAll(stock.propose(now.code(), program.locationId(), now.packs(), program.dueOn()));
    }
    return lines;
  }

  private SignedProgram signed(Long programId) {
    return programs
        .signed(programId)
        .orElseThrow(
            () ->
                new NotFound(
                    "There is no signed program with this number. A licensed PT signs one first."));
  }

  private LoanRequest requestOf(Long programId) {
    return requests.find("openProgramId", programId).firstResult();
  }
}
