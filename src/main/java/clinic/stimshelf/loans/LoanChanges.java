package clinic.stimshelf.loans;

import clinic.stimshelf.audit.Actor;
import clinic.stimshelf.audit.Happened;
import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;

@ApplicationScoped
class LoanChanges implements PanacheRepository<LoanChange> {
  @Inject Actor actor;
  @Inject Clock clock;

  /** A turn the loan takes, still to be filled in and persisted. */
  LoanChange turn(Loan loan, ChangeKind kind, Happened happened, String reason) {
    LoanChange turn = new LoanChange();
    turn.loanId = loan.id;
    turn.kind = kind;
    turn.happenedAt = happened.at();
    turn.recordedAt = clock.instant();
    turn.byName = actor.name();
    turn.reason = reason;
    return turn;
  }
}
