package clinic.stimshelf.loans;

import clinic.stimshelf.appointments.LoanedUnits;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitView;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Which unit a patient brings along to an appointment. */
@ApplicationScoped
class UnitsAtHome implements LoanedUnits {
  @Inject LoanRows rows;
  @Inject Shelf shelf;

  @Override
  @Transactional
  public Map<Long, Loaned> of(Collection<Long> patientIds) {
    if (patientIds.isEmpty()) {
      return Map.of();
    }
    List<Loan> out =
        rows.list(
            "patientId in ?1 and state = ?2 order by checkedOutAt", patientIds, LoanState.OUT);
    Map<Long, UnitView> units = shelf.byIds(out.stream().map(loan -> loan.unitId).toList());
    Map<Long, Loaned> loaned = new HashMap<>();
    for (Loan loan : out) {
      UnitView unit = units.get(loan.unitId);
      loaned.put(
          loan.patientId,
          new Loaned(loan.id, loan.unitId, unit.tag(), loan.dueOn, "/loans/" + loan.id));
    }
    return loaned;
  }
}
