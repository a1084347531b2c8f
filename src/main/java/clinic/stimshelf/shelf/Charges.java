package clinic.stimshelf.shelf;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class Charges implements PanacheRepository<Charge> {}
