package clinic.stimshelf.loans;

import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.shelf.FaultKind;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.Soiling;
import clinic.stimshelf.shelf.UnitCare;
import clinic.stimshelf.shelf.UnitState;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.shelf.UseKind;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.EnumSet;

/** What a unit goes through when it leaves a home, at a check in as at a swap. */
@ApplicationScoped
class Homecoming {
  @Inject Shelf shelf;
  @Inject UnitCare care;

  /** Ends the use; the unit is to be wiped, and a fault it had stays with it until inspected. */
  void of(UnitView unit, Long loanId, Trouble trouble, String words, Happened happened) {
    // Told while it is still in use, it is wiped and then inspected like any other that comes home.
    if (trouble == Trouble.SOILED) {
      // Which of the two is not said, so both rules hold.
      care.soiled(unit.tag(), EnumSet.of(Soiling.BODY_FLUID, Soiling.PESTS), happened);
    } else if (trouble != null && trouble != Trouble.SKIN) {
      care.trouble(
          unit.tag(),
          switch (trouble) {
            case DROPPED -> FaultKind.DROP;
            case SWOLLEN -> FaultKind.SWOLLEN;
            default -> FaultKind.FAULT;
          },
          words == null || words.isBlank() ? trouble.words() : words,
          happened);
    }
    shelf.end(unit.id(), UseKind.LOAN, loanId, happened, UnitState.TO_WIPE);
  }
}
