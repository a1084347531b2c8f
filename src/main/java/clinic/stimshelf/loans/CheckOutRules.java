package clinic.stimshelf.loans;

import clinic.stimshelf.loans.CheckOutOrder.LeftBehind;
import clinic.stimshelf.pads.Lots;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadStock;
import clinic.stimshelf.pads.PadTypeView;
import clinic.stimshelf.people.Consents;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Screenings;
import clinic.stimshelf.program.PacksNow;
import clinic.stimshelf.program.Placement;
import clinic.stimshelf.program.ProgramState;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.shelf.KitItemView;
import clinic.stimshelf.shelf.NeededHere;
import clinic.stimshelf.shelf.PartState;
import clinic.stimshelf.shelf.Purpose;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.shelf.UseKind;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * What must be so before a unit leaves. Every rule that is not met is named, each with the step
 * that cures it.
 */
@ApplicationScoped
class CheckOutRules {
  private static final int IDENTIFIERS = 2;

  /** Field under which the shelf says who has a unit. */
  static final String TAKEN = "state";

  @Inject Lots lots;
  @Inject Screenings screenings;
  @Inject Consents consents;
  @Inject clinic.stimshelf.people.Orders orders;
  @Inject Shelf shelf;
  @Inject NeededHere needed;
  @Inject PadCatalog catalog;
  @Inject PadStock stock;
  @Inject Programs programs;
  @Inject LoanRows loans;

  /** Everything about the person and the program. */
  void person(SignedProgram program, PatientView patient, LocalDate day, Refusals refusals) {
    program(program, refusals);
    if (patient.diedOn() != null) {
      refusals.add("programId", "This patient is recorded as deceased.");
    }
    if (loans.count("openProgramId", program.programId()) > 0) {
      refusals.add(
          "programId", "A unit is out with this program already.", "Swap or extend that loan.");
    }
    Set<String> screening = new LinkedHashSet<>();
    for (Placement placement : program.placements()) {
      screening.addAll(
          screenings
              .status(patient.id(), placement.muscle(), placement.side().word(), day)
              .reasons());
    }
    screening.forEach(reason -> refusals.add("screening", reason));
    orders.requireRunning(patient.id(), program.locationId(), day, refusals);
  }

  /** What the program itself tells, without a look at anything else. */
  void program(SignedProgram program, Refusals refusals) {
    if (program.state() == ProgramState.STOPPED) {
      refusals.add(
          "programId", "The program was stopped.", "Sign a new one after screening again.");
    }
    if (program.state() == ProgramState.HELD) {
      ProgramState.refuseWhileHeld("programId", refusals);
    }
    if (program.state() == ProgramState.PAUSED) {
      refusals.add("programId", "The program is paused.", "End the pause first.");
    }
    if (!program.firstSessionDone()) {
      refusals.add(
          "firstSession",
          "No first supervised session is on record.",
          "The therapist records it on the program's page.");
    }
  }

  /** Everything about the unit and its kit; a unit that somebody else has is told by the caller. */
  void unit(
      SignedProgram program,
      UnitView unit,
      Long requestId,
      CheckOutOrder order,
      Instant now,
      Refusals refusals) {
    if (!unit.locationId().equals(program.locationId())) {
      refusals.add(
          "unitTag",
          "Unit " + unit.tag() + " belongs to " + unit.location() + ".",
          "Move it to this location first, or take another.");
    }
    if (unit.channels() < program.channels()) {
      refusals.add(
          "unitTag",
          "Unit "
              + unit.tag()
              + " has "
              + unit.channels()
              + " channels; the program needs "
              + program.channels()
              + ".",
          "Take a unit with more channels.");
    }
    if (!unit.lendsOut() || unit.purpose().equals(Purpose.CLINIC.word())) {
      refusals.add("unitTag", "Unit " + unit.tag() + " is for treatments in the clinic only.");
    }
    List<Reason> notReady = shelf.whyNotReadyToLeave(unit.id(), program.dueOn(), now);
    boolean taken = taken(unit, requestId);
    for (Reason reason : notReady) {
      if (Shelf.BRING_IN.equals(reason.field()) && broughtIn(unit, order.bringInOn())) {
        continue;
      }
      // Who has it is said by the shelf when the unit is taken, if nothing else stands against it.
      if (!TAKEN.equals(reason.field()) || !taken) {
        refusals.add(reason.field(), reason.message(), reason.cure());
      }
    }
    NeededHere.LentUntil limit =
        needed.lentUntil(program.locationId(), program.patientId()).get(unit.id());
    if (limit != null && !limit.allows(program.dueOn())) {
      refusals.add(
          "unitTag",
          "Unit " + unit.tag() + " cannot stay away that long. " + limit.words(),
          "Take another kit, or give those treatments another unit on the schedule first.");
    }
    if (!programs.settingConfirmed(program.programId(), unit.id())) {
      refusals.add(
          "setting",
          "The setting of unit "
              + unit.tag()
              + " is not confirmed to match version "
              + program.version()
              + " of the program.",
          "A therapist sets it on the unit and confirms it on the program's page.");
    }
    contents(unit, order, refusals);
  }

  /**
   * Whether somebody else has the unit or holds it. Asks the shelf too: somebody may have taken the
   * unit since it was read.
   */
  boolean taken(UnitView unit, Long requestId) {
    return unit.use() != null
        || shelf.inUse(unit.id())
        || (unit.state() == UnitState.RESERVED
            && !(unit.reservedFor() == UseKind.LOAN && unit.reservedId().equals(requestId)));
  }

  private static boolean broughtIn(UnitView unit, LocalDate day) {
    return day != null && unit.nextTestOn() != null && !day.isAfter(unit.nextTestOn());
  }

  private static void contents(UnitView unit, CheckOutOrder order, Refusals refusals) {
    Map<Long, LeftBehind> behind = new TreeMap<>();
    order.leftBehind().forEach(one -> behind.put(one.kitItemId(), one));
    for (KitItemView part : unit.contents()) {
      LeftBehind left = behind.get(part.id());
      if (part.essential() && left != null) {
        refusals.add(
            "contents",
            "The unit does not leave without its " + part.name() + ".",
            "Add one to the kit or take another kit.");
      } else if (!part.essential()
          && part.state() != PartState.REMOVED
          && (left != null || !part.present())
          && (left == null || left.reason() == null || left.reason().isBlank())) {
        refusals.add(
            "contents",
            "The kit of unit " + unit.tag() + " is without its " + part.name() + ".",
            "Say why it is owed.");
      }
    }
  }

  /** Everything about the pads that leave. */
  void pads(SignedProgram program, UnitView unit, CheckOutOrder order, Refusals refusals) {
    Map<String, Integer> leaving = new TreeMap<>();
    lots.codes(order.packs()).forEach((code, packs) -> leaving.merge(code, packs, Integer::sum));
    for (PacksNow wanted : program.packsNow()) {
      PadTypeView type = catalog.byCode(wanted.code());
      if (unit != null && !type.connector().equals(unit.connector())) {
        refusals.add(
            "packs",
            "Pads "
                + type.code()
                + " have a "
                + type.connector()
                + " connector; unit "
                + unit.tag()
                + " takes "
                + unit.connector()
                + ".",
            "Take a unit that fits, or let the therapist change the pads.");
      }
      int packs = leaving.getOrDefault(wanted.code(), 0);
      if (packs == 0) {
        refusals.add(
            "packs",
            "No pack of " + wanted.code() + " leaves with the unit.",
            "Scan at least one; further packs may be owed.");
      } else if (packs < wanted.packs()
          && (order.packsReason() == null || order.packsReason().isBlank())) {
        refusals.add(
            "packsReason",
            "The program says "
                + wanted.packs()
                + " packs of "
                + wanted.code()
                + " now, "
                + packs
                + " leave.",
            "Scan the others, or say why they are owed.");
      } else if (packs > wanted.packs() + laterPacks(program, wanted.code())) {
        refusals.add(
            "packs",
            packs + " packs of " + wanted.code() + " are more than the whole program needs.",
            "Put some back.");
      }
    }
    leaving.keySet().stream()
        .filter(code -> program.packsNow().stream().noneMatch(now -> now.code().equals(code)))
        .forEach(
            code ->
                refusals.add(
                    "packs", "Pads " + code + " are not part of this program.", "Put them back."));
  }

  /** Who it is, and that they agreed. */
  void agreement(
      SignedProgram program,
      PatientView patient,
      CheckOutOrder order,
      LocalDate day,
      Refusals refusals) {
    if (order.identifiers().size() < IDENTIFIERS) {
      refusals.add(
          "identifiers",
          "Fewer than two identifiers were checked.",
          "Ask for name and birth date, for instance.");
    }
    if (order.agreement() == null) {
      if (!consents.loanConsentOnRecord(patient.id(), program.programId())) {
        refusals.add(
            "agreement",
            "No lending agreement is on record.",
            "Read it back and let it be signed.");
      }
      return;
    }
    if (order.agreement().signer() == null || order.agreement().signer().isBlank()) {
      refusals.add("agreement", "Who signed the agreement?", "Enter the name.");
    }
    if (patient.minorOn(day) && "self".equals(order.agreement().relation())) {
      refusals.add(
          "agreement", "This patient is a minor.", "The guardian signs; name the relation.");
    }
  }

  private static int laterPacks(SignedProgram program, String code) {
    return program.packsLater().stream()
        .filter(later -> later.code().equals(code))
        .mapToInt(later -> later.packs())
        .sum();
  }

  /** Packs that the program says for now and that do not leave, by pad code. */
  static List<PacksNow> shortOf(SignedProgram program, Map<String, Integer> leaving) {
    return program.packsNow().stream()
        .map(now -> new PacksNow(now.code(), now.packs() - leaving.getOrDefault(now.code(), 0)))
        .filter(now -> now.packs() > 0)
        .toList();
  }
}
