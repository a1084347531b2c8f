package clinic.stimshelf.loans;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;

@ApplicationScoped
class LoanOwedRows implements PanacheRepository<LoanOwed> {

  /** What the clinic still owes ends with the loan. */
  void settleClinicDebts(Long loanId, Instant at, String how) {
    for (LoanOwed row :
        list("loanId = ?1 and owedBy = ?2 and settledAt is null", loanId, OwedBy.CLINIC)) {
      row.settledAt = at;
      row.settledHow = how;
    }
  }
}
