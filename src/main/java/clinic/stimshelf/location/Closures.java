package clinic.stimshelf.location;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class Closures implements PanacheRepository<Closure> {}
