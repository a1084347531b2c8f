package clinic.stimshelf.shelf;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.util.stream.Stream;

/** Two units that are with each other's patients: both uses are put right at one time. */
@ApplicationScoped
public class UnitExchange {
  @Inject UnitUses uses;
  @Inject UnitChanges changes;

  /**
   * From that time on, each loan holds the other's unit. What was recorded until then stays.
   *
   * @throws Refusal if either unit is not out with the loan that is named for it, or was not yet at
   *     that time
   */
  @Transactional
  public void exchange(
      Long oneUnit, Long oneLoan, Long otherUnit, Long otherLoan, Happened happened) {
    UnitUseRow one = running(oneUnit, oneLoan);
    UnitUseRow other = running(otherUnit, otherLoan);
    Refusals refusals = new Refusals();
    checkSince(oneUnit, otherUnit, happened, refusals);
    refusals.throwIfAny();
    UnitUseRow nowOther = successor(one, otherUnit);
    UnitUseRow nowOne = successor(other, oneUnit);
    one.end(happened.at());
    other.end(happened.at());
    // The database lets a unit be in one place: both must be free before they change hands.
    uses.flush();
    nowOther.startsAt = happened.at();
    nowOne.startsAt = happened.at();
    uses.persist(nowOther, nowOne);
    changes.change(
        oneUnit, "mix-up put right", happened, unit -> unit.turnedUpInUse(happened.at()));
    changes.change(
        otherUnit, "mix-up put right", happened, unit -> unit.turnedUpInUse(happened.at()));
    uses.flush();
  }

  /** Adds a reason if at that time one of the units was not yet where it is now. */
  public void checkSince(Long oneUnit, Long otherUnit, Happened happened, Refusals refusals) {
    boolean early =
        Stream.of(oneUnit, otherUnit)
            .flatMap(unit -> uses.running(unit).stream())
            .anyMatch(use -> happened.at().isBefore(use.startsAt));
    if (early) {
      refusals.add(
          "happenedAt",
          "One of the units went to its patient only after that.",
          "Enter a time since which both were out.");
    }
  }

  private UnitUseRow running(Long unitId, Long loanId) {
    return uses.running(unitId)
        .filter(use -> use.isFor(UseKind.LOAN, loanId))
        .orElseThrow(
            () ->
                new Refusal(
                    "unit",
                    "A unit is not out with the loan that is named for it.",
                    "Scan both tags to see where the units are."));
  }

  private static UnitUseRow successor(UnitUseRow of, Long unitId) {
    UnitUseRow row = new UnitUseRow();
    row.unitId = unitId;
    row.activeUnitId = unitId;
    row.useKind = UseKind.LOAN;
    row.subjectId = of.subjectId;
    row.expectedEnd = of.expectedEnd;
    return row;
  }
}
