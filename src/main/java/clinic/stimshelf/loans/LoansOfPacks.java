package clinic.stimshelf.loans;

import clinic.stimshelf.pads.LoanWords;
import clinic.stimshelf.web.Days;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;

/** Says with which loan packs went out, for whoever looks for a lot. */
@ApplicationScoped
class LoansOfPacks implements LoanWords {
  @Inject EntityManager em;

  @Override
  @Transactional
  public Map<Long, String> words(Collection<Long> loanIds) {
    Map<Long, String> words = new HashMap<>();
    em.createQuery(
            "select l.id, u.tag, l.dueOn, l.returnedAt from Loan l, Unit u where u.id = l.unitId"
                + " and l.id in :ids",
            Object[].class)
        .setParameter("ids", loanIds)
        .getResultList()
        .forEach(
            row ->
                words.put(
                    (Long) row[0],
                    "unit "
                        + row[1]
                        + (row[3] == null
                            ? ", due " + Days.full((LocalDate) row[2])
                            : ", returned")));
    return words;
  }
}
