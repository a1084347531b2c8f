package clinic.stimshelf.program;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class EndDecisionRows implements PanacheRepository<EndDecision> {}
