package clinic.stimshelf.recall;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class RecallRows implements PanacheRepository<Recall> {}
