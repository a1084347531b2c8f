package clinic.stimshelf.loans;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.PadOutcome;
import clinic.stimshelf.pads.PadSetView;
import clinic.stimshelf.pads.PadSets;
import clinic.stimshelf.pads.PadStock;
import clinic.stimshelf.shelf.Kits;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.ShelfKeeping;
import clinic.stimshelf.shelf.UnitCare;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** A unit comes home: contents are counted, pads accounted for, and the unit goes to be wiped. */
@ApplicationScoped
public class CheckIn {
  @Inject Loans loanBook;
  @Inject LoanParts parts;
  @Inject LoanOwedRows owed;
  @Inject Shelf shelf;
  @Inject ShelfKeeping keeping;
  @Inject Kits kits;
  @Inject Homecoming homecoming;
  @Inject UnitCare care;
  @Inject PadStock stock;
  @Inject PadSets padSets;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Event<LoanChanged> changed;

  /**
   * Checks a unit in.
   *
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public void checkIn(Long loanId, CheckInOrder order) {
    Loan loan = loanBook.row(loanId);
    Refusals refusals = new Refusals();
    Long placeId =
        order.locationCode() == null || order.locationCode().isBlank()
            ? loan.locationId
            : locations.byCode(order.locationCode()).id();
    // A unit may come back anywhere: who takes it in must work there, not where it was lent.
    signedIn.requireLocation(placeId);
    Happened happened =
        times.of(order.happenedAt(), order.lateReason(), locations.zone(placeId), refusals);
    if (!loan.open()) {
      refusals.add(null, "This loan is " + loan.state.word() + " already.");
    } else if (happened.at().isBefore(loan.checkedOutAt)) {
      refusals.add("happenedAt", "The unit went out after that.", "Enter when it came back.");
    }
    UnitView unit = shelf.byId(loan.unitId);
    if (order.useCounter() != null
        && loan.useCounterOut != null
        && order.useCounter() < loan.useCounterOut) {
      refusals.add(
          "useCounter",
          "The counter stood at " + loan.useCounterOut + " when the unit left.",
          "Read it again, or leave it empty.");
    }
    if (order.trouble() == Trouble.OTHER
        && (order.troubleWords() == null || order.troubleWords().isBlank())) {
      refusals.add("troubleWords", "Say in a few words what the trouble is.");
    }
    List<LoanPart> went = parts.list("loanId = ?1 and wentAlong = true", loanId);
    for (Long named : order.parts().keySet()) {
      if (went.stream().noneMatch(part -> part.id.equals(named))) {
        refusals.add("parts", "Part " + named + " did not go out with this loan.");
      }
    }
    refusals.throwIfAny();
    LoanView before = loanBook.byId(loanId);
    for (LoanPart part : went) {
      part.cameBack = order.parts().getOrDefault(part.id, CameBack.PRESENT);
      takePart(loan, part, happened);
    }
    owed.settleClinicDebts(loanId, happened.at(), "no longer needed: the unit came back");
    if (!order.sealedPacks().isEmpty()) {
      stock.takeBackSealed(loanId, loan.patientId, placeId, order.sealedPacks(), happened);
    }
    for (PadSetView set : padSets.inUse(loan.patientId, loan.programId)) {
      LocalDate day = LocalDate.ofInstant(happened.at(), locations.zone(loan.locationId));
      padSets.close(
          set.id(),
          order.padSets().getOrDefault(set.id(), PadOutcome.STILL_GOOD),
          day.isBefore(set.openedOn()) ? set.openedOn() : day,
          order.note(),
          happened);
    }
    loan.useCounterIn = order.useCounter();
    loan.returned(happened.at(), placeId);
    if (!order.soiling().isEmpty()) {
      care.soiled(unit.tag(), order.soiling(), happened);
    }
    homecoming.of(unit, loanId, order.trouble(), order.troubleWords(), happened);
    if (!placeId.equals(unit.locationId())) {
      keeping.move(unit.tag(), placeId, null, happened);
    }
    if (order.useCounter() != null) {
      keeping.change(unit.tag(), unit.purpose(), unit.ownerWords(), order.useCounter(), happened);
    }
    Map<String, Object> after = new LinkedHashMap<>();
    after.put("unit", unit.tag());
    after.put("location", locations.byId(placeId).code());
    after.put("owed", owedWords(loanId));
    after.put("trouble", order.trouble());
    after.put("note", order.note());
    trail.record(
        Subject.of("loan", loanId),
        loan.locationId,
        "checked in",
        happened,
        Map.of("state", before.state(), "dueOn", before.dueOn()),
        after);
    changed.fire(new LoanChanged(loanId, loan.patientId));
  }

  private void takePart(Loan loan, LoanPart part, Happened happened) {
    if (part.cameBack == CameBack.PRESENT) {
      return;
    }
    if (part.kitItemId != null) {
      kits.missing(part.kitItemId, happened);
    }
    if (part.cameBack == CameBack.OWED) {
      LoanOwed row = new LoanOwed();
      row.loanId = loan.id;
      row.owedBy = OwedBy.PATIENT;
      row.what = OwedKind.PART;
      row.words = part.words;
      row.kitItemId = part.kitItemId;
      owed.persist(row);
    }
  }

  private List<String> owedWords(Long loanId) {
    return owed.list("loanId = ?1 and settledAt is null", loanId).stream()
        .map(row -> row.words)
        .toList();
  }
}
