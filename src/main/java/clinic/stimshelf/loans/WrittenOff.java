package clinic.stimshelf.loans;

import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.PadOutcome;
import clinic.stimshelf.pads.PadSetView;
import clinic.stimshelf.pads.PadSets;
import clinic.stimshelf.shelf.UnitWrittenOff;
import clinic.stimshelf.shelf.UseKind;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Map;

/**
 * A loan whose unit is written off ends as lost: it was not returned, and nobody is asked again.
 */
@ApplicationScoped
class WrittenOff {
  @Inject LoanRows rows;
  @Inject LoanChanges changes;
  @Inject LoanOwedRows owed;
  @Inject PadSets padSets;
  @Inject Locations locations;
  @Inject Trail trail;
  @Inject Event<LoanChanged> changed;

  void end(@Observes UnitWrittenOff gone) {
    if (gone.kind() != UseKind.LOAN) {
      return;
    }
    Loan loan = rows.findById(gone.subjectId());
    String before = loan.state.word();
    loan.lost(gone.happened().at());
    owed.settleClinicDebts(
        loan.id, gone.happened().at(), "no longer needed: the unit is written off");
    LocalDate day = LocalDate.ofInstant(gone.happened().at(), locations.zone(loan.locationId));
    for (PadSetView set : padSets.inUse(loan.patientId, loan.programId)) {
      padSets.close(
          set.id(),
          PadOutcome.LOST,
          day.isBefore(set.openedOn()) ? set.openedOn() : day,
          null,
          gone.happened());
    }
    changes.persist(changes.turn(loan, ChangeKind.WRITTEN_OFF, gone.happened(), gone.reason()));
    trail.record(
        Subject.of("loan", loan.id),
        loan.locationId,
        "unit written off",
        gone.happened(),
        Map.of("state", before),
        Map.of("state", loan.state.word(), "reason", gone.reason()));
    changed.fire(new LoanChanged(loan.id, loan.patientId));
  }
}
