package clinic.stimshelf.loans;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class LoanParts implements PanacheRepository<LoanPart> {}
