package clinic.stimshelf.loans;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.program.SessionLogged;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UseKind;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.time.Instant;

/** Counts sessions done at home with the unit that was there on their day. */
@ApplicationScoped
class SessionsOfLoans {
  @Inject LoanRows loans;
  @Inject Locations locations;
  @Inject Shelf shelf;

  void count(@Observes SessionLogged logged) {
    loans
        .list(
            "programId = ?1 and state <> ?2 order by checkedOutAt desc, id desc",
            logged.programId(),
            LoanState.VOID)
        .stream()
        .filter(loan -> loan.checkedOutAt.isBefore(dayAfter(loan, logged)))
        .findFirst()
        .ifPresent(
            loan ->
                shelf.countSessions(
                    UseKind.LOAN, loan.id, dayAfter(loan, logged), logged.sessions()));
  }

  private Instant dayAfter(Loan loan, SessionLogged logged) {
    return logged.day().plusDays(1).atStartOfDay(locations.zone(loan.locationId)).toInstant();
  }
}
