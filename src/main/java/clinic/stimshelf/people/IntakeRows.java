package clinic.stimshelf.people;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class IntakeRows implements PanacheRepository<Intake> {}
