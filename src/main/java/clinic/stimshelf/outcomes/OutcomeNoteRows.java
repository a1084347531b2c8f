package clinic.stimshelf.outcomes;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class OutcomeNoteRows implements PanacheRepository<OutcomeNote> {}
